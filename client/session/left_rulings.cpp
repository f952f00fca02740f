#include "client/session/left_rulings.h"

#include <map>
#include <string>

#include <fmt/format.h>

#include "client/session/fork_words.h"
#include "client/session/match_words.h"
#include "client/session/news.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

/// The matches for which something waits, each with whether a decision about entries beside its
/// record is among it.
std::map<std::string, bool> ruled_matches(const Journal& journal) {
    std::map<std::string, bool> matches;
    for (const auto& [name, bytes] : journal.settings(ruling_prefix)) {
        v1::RulingNotice notice;
        if (!notice.ParseFromString(bytes)) continue;
        const auto id = wire::Uuid::from_bytes(notice.match_id());
        if (!id) continue;
        bool& about_fork = matches[id->to_text()];
        about_fork = about_fork || settles_fork(notice);
    }
    return matches;
}

bool written_here(const Journal& journal, const Device& device, const std::string& match_id) {
    const auto stored = journal.match(match_id);
    if (!stored) return false;
    const auto read = read_sheet(*stored);
    const auto* sheet = std::get_if<StoredSheet>(&read);
    return sheet != nullptr && !sheet->writer.held_by_other(id_bytes(device));
}

}  // namespace

std::string words_of_left_ruling(const MatchSheet& sheet, bool goes_on) {
    return fmt::format(
        "A ruling of the head official was recorded in the match {}, which is not on this "
        "screen.{}",
        match_words(sheet),
        goes_on ? " It is not over any more: go on with it here once the match on this screen is "
                  "over, or ask the head official."
                : "");
}

void record_left_rulings(Journal& journal, const Device& device, std::string_view shown,
                         const SessionHooks& hooks) {
    for (const auto& [id, about_fork] : ruled_matches(journal)) {
        const bool written = written_here(journal, device, id);
        // What became of entries beside the record concerns a device that writes no more, too.
        if (id == shown || (!written && !about_fork)) continue;
        auto opened = JournaledMatch::open(journal, device, id, hooks);
        auto* match = std::get_if<std::unique_ptr<JournaledMatch>>(&opened);
        if (match == nullptr) continue;
        const auto over = [match] { return (*match)->state().set.stage == Stage::match_over; };
        const bool was_over = over();
        if (!(*match)->poll() || !written) continue;
        const auto news =
            fresh_news(journal, words_of_left_ruling((*match)->sheet(), was_over && !over()));
        if (news) static_cast<void>(journal.store({}, {*news}));
    }
}

}  // namespace courthand::client
