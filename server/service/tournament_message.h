// Between the messages of the tournament's record and what the server works with.
#pragma once

#include <vector>

#include "courthand/v1/tournament_service.pb.h"
#include "server/service/audit_note.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::service {

/// From where on a client watches the record.
struct RecordWish {
    tournament::FactHead from;  ///< the last fact that it has; none: from the beginning
    bool with_words = false;    ///< it may see what stands beside facts: a desk seat
};

// `invalid` names the field that cannot be read, and the cure.
[[nodiscard]] Result<RecordWish> record_wish(const v1::WatchRecordRequest& request,
                                             bool with_words);
/// An act of the device of the certificate.
[[nodiscard]] Result<tournament::Act> act_of(const v1::ActRequest& request, DeviceId device);
[[nodiscard]] Result<std::vector<tournament::FactNumber>> facts_to_erase(
    const v1::EraseWordsRequest& request);

/// Without header.
[[nodiscard]] v1::ActResponse to_message(const tournament::Outcome& outcome);
/// A fact as it was made; with what stands beside it for those who may see that.
[[nodiscard]] v1::TournamentEntryBytes to_message(const tournament::KeptFact& fact,
                                                  bool with_words);

/// What the audit says of them. The words beside facts are not in it: they may name persons, and
/// can be erased.
[[nodiscard]] ActWords words_of(const v1::ActRequest& request);
[[nodiscard]] ActWords words_of(const v1::EraseWordsRequest& request);
/// Why an act that was answered did nothing; empty: it was kept.
[[nodiscard]] std::string nothing_done(const v1::ActResponse& response);

}  // namespace courthand::server::service
