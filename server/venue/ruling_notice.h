// What goes into the feed with an act of a person: the table's word of a ruling, and a word to the
// other servers.
#pragma once

#include <optional>
#include <vector>

#include "server/alerts/alert_book.h"
#include "server/store/match_store.h"

namespace courthand::server::venue {

/// With every act a word to the other servers; with a ruling about a verdict of the rules or a
/// decision about a branch, before it, the notice for the table. Of a verdict it names the very
/// entry by number and hash. Ids are made
/// of the alert and the number of the life entry: the same on each retry, and other ones when the
/// alert was raised and ruled again.
[[nodiscard]] std::vector<FeedNotice> notices_of(const alerts::Alert& alert,
                                                 const alerts::LifeEntry& entry);

/// An alert has moved on, to this step of its life, by an act at some server.
struct AlertMoved {
    alerts::AlertId id;
    std::uint32_t number = 0;
};
/// Reads the word to the other servers; nothing when it is none, or of a newer program.
[[nodiscard]] std::optional<AlertMoved> alert_moved(const FeedItem& item);

}  // namespace courthand::server::venue
