#include "server/feed/read_match.h"

#include <algorithm>

namespace courthand::server {
namespace {

/// Entries read at once when a record is folded again.
constexpr std::size_t most_entries_per_read = 1000;

}  // namespace

// Entries that came after the match was read follow with the feed.
Result<std::unique_ptr<FoldedMatch>> read_match(MatchStore& store, const StoredMatch& match) {
    auto folded = std::make_unique<FoldedMatch>(match);
    EntryNumber last = 0;
    while (last < match.head.last) {
        const auto most = std::min<std::size_t>(most_entries_per_read, match.head.last - last);
        const auto page = store.read_record(match.plan.key, last, most);
        if (!page.ok()) return page.status();
        if (page->empty()) {
            // Either the database was put back meanwhile, which the next look at the feed finds
            // out, or it is damaged: the one match is judged no further.
            folded->give_up_at(last + 1);
            break;
        }
        for (const StoredEntry& entry : *page)
            (void)folded->append({++last, entry.hash, entry.stored_at, entry.bytes});
    }
    return folded;
}

}  // namespace courthand::server
