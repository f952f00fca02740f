// What the calls about a forked record do: both sides of it for people to compare, and the words
// that go with their decision. No record is changed here: an entry is entered again at the table,
// or not at all.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "courthand/v1/venue.pb.h"
#include "server/alerts/fork_alert.h"
#include "server/service/venue_parts.h"

namespace courthand::server::service {

/// As the desk has them.
using DeviceNames = std::map<DeviceId, std::string>;

class ForkCalls {
  public:
    /// Entries of each side in one answer: two sets from the fork on, and far below the limit of a
    /// message when every entry is as long as one may be. More are counted only.
    static constexpr std::size_t most_shown = 100;
    /// The official's words: with those about the branch they fit the note of a ruling.
    static constexpr std::size_t longest_note = 250;

    explicit ForkCalls(const VenueParts& parts) : parts_{parts} {}

    /// May wait for the database.
    [[nodiscard]] Result<v1::ShowForkResponse> show(const v1::ShowForkRequest& request) const;

    struct Decision {
        bool enter_again = false;
        std::string note;  ///< for the table: which entries, and the official's words
    };
    /// The decision as the book of alerts keeps it, or why the request says none. May wait for the
    /// database.
    [[nodiscard]] Result<Decision> decision(const v1::SettleForkRequest& request) const;

  private:
    /// Of the branch, by number.
    [[nodiscard]] Result<std::vector<FeedItem>> entries_of(
        const alerts::BranchOfMatch& place) const;
    /// From `first_seq` of the response on.
    [[nodiscard]] Status add_record(MatchKey key, const DeviceNames& names,
                                    v1::ShowForkResponse& out) const;

    VenueParts parts_;
};

}  // namespace courthand::server::service
