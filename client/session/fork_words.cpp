#include "client/session/fork_words.h"

#include <charconv>
#include <string_view>

#include <fmt/format.h>

#include "client/session/match_words.h"

namespace courthand::client {
namespace {

/// The code of the server's alert.
constexpr std::string_view forked = "record-forked";

constexpr std::string_view decided_prefix = "fork-decided/";
constexpr std::string_view again = " again";

std::string name_of(const std::string& match_id) {
    return std::string{decided_prefix} + match_id;
}

std::size_t beside_the_record(const Journal& journal, const std::string& match_id) {
    for (const Journal::Tally& one : journal.unsettled())
        if (one.match_id == match_id) return one.beside;
    return 0;
}

}  // namespace

bool settles_fork(const v1::RulingNotice& notice) {
    return notice.reason() == forked;
}

std::string words_of_settled_fork(const MatchSheet& sheet, const v1::RulingNotice& notice) {
    const std::string match = match_words(sheet);
    const std::string note = notice.note().empty() ? std::string{} : " (" + notice.note() + ")";
    if (notice.accepted())
        return fmt::format(
            "Two devices wrote the match {}. It was decided that the entries beside the record{} "
            "are to be entered again, by hand, at the device that writes now. Ask the desk to "
            "read them out.",
            match, note);
    return fmt::format(
        "Two devices wrote the match {}. It was decided that the record stands as it is{}; "
        "nothing is to be entered again.",
        match, note);
}

std::pair<std::string, std::string> kept_decision(const Journal& journal,
                                                  const std::string& match_id, bool enter_again) {
    return {name_of(match_id), fmt::format("{}{}", beside_the_record(journal, match_id),
                                           enter_again ? again : std::string_view{})};
}

std::string words_of_decision(const Journal& journal, const std::string& match_id,
                              std::size_t beside) {
    const std::string kept = journal.setting(name_of(match_id));
    std::size_t decided = 0;
    std::from_chars(kept.data(), kept.data() + kept.size(), decided);
    if (decided < beside) return "Ask the head official which record counts.";
    return kept.ends_with(again)
               ? "It was decided: they are entered again at the device that writes."
               : "It was decided: the record stands without them.";
}

}  // namespace courthand::client
