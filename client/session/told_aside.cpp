#include "client/session/told_aside.h"

#include <algorithm>
#include <charconv>
#include <string>

#include <fmt/format.h>

#include "client/session/match_words.h"
#include "client/session/news.h"

namespace courthand::client {
namespace {

std::string words_about(const MatchSheet& sheet, const std::vector<Journal::Aside>& aside) {
    std::uint32_t first = UINT32_MAX;
    for (const Journal::Aside& one : aside) first = std::min(first, one.entry.seq);
    return fmt::format(
        "The match {} goes on from the server's record, without {} {} of this device from number "
        "{} on: kept here and beside the record. Look at the score before you go on.",
        match_words(sheet), aside.size(), aside.size() == 1 ? "entry" : "entries", first);
}

}  // namespace

void tell_set_aside(Journal& journal, const MatchSheet& sheet) {
    const std::string name = std::string{told_aside_prefix} + sheet.match_id;
    const std::string kept = journal.setting(name);
    std::int64_t told = 0;
    std::from_chars(kept.data(), kept.data() + kept.size(), told);
    const auto aside = journal.aside(sheet.match_id, told, most_told_aside, Journal::Which::all);
    if (aside.empty()) return;
    auto news = fresh_news(journal, words_about(sheet, aside));
    if (!news) return;
    // Both at once: neither is lost, and nothing is said twice.
    static_cast<void>(
        journal.store({}, {*std::move(news), {name, fmt::format("{}", aside.back().id)}}));
}

}  // namespace courthand::client
