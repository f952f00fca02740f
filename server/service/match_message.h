// Matches, writers and entries as messages, and back where a table sends them. Pure.
#pragma once

#include "courthand/v1/match.pb.h"
#include "courthand/v1/profile.pb.h"
#include "courthand/v1/roster.pb.h"
#include "courthand/v1/sync.pb.h"
#include "server/domain/match_observer.h"
#include "server/store/append_plan.h"

namespace courthand::server::service {

void to_message(const LiveMatch& match, v1::Match& out);
void to_message(const MatchHead& head, v1::WriterEpoch& out);
/// Without the device's name: that is the desk's.
void to_message(const TakeOverAsked& asked, v1::TakeOverAsked& out);
/// Id, title and hash; the text only when the other side may not have the profile built in.
void to_message(const Profile& profile, v1::Profile& out);
[[nodiscard]] std::string to_field(const Hash& hash);

/// A match that a table opened without network; or why it cannot be one.
[[nodiscard]] Result<MatchPlan> opened_match(const v1::Match& match, MatchId id,
                                             TournamentId tournament);

/// Reads one entry of a push: everything that can be checked without the record. The message of a
/// failure names the place.
[[nodiscard]] Result<AppendItem> append_item(const std::string& bytes, MatchId match,
                                             GrantId grant);

[[nodiscard]] v1::PushResult::Cause to_message(Cause cause);
[[nodiscard]] Cause cause_of(v1::PushResult::Cause cause);
[[nodiscard]] v1::PushResult to_result(const AppendItem& item, const AppendResult& result);

}  // namespace courthand::server::service
