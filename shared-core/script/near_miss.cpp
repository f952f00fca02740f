#include "script/near_miss.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <vector>

namespace courthand::script {
namespace {

/// Longer words are not slips of the hand, and would make the table below large.
constexpr std::size_t longest_typed = 48;

/// Letters to insert, remove or change, or neighbours to swap, to turn one word into the other.
std::size_t slips(std::string_view x, std::string_view y) {
    const std::size_t width = y.size() + 1;
    std::vector<std::size_t> cost((x.size() + 1) * width);
    const auto at = [&](std::size_t i, std::size_t j) -> std::size_t& {
        return cost[i * width + j];
    };
    for (std::size_t i = 0; i <= x.size(); ++i) at(i, 0) = i;
    for (std::size_t j = 0; j <= y.size(); ++j) at(0, j) = j;
    for (std::size_t i = 1; i <= x.size(); ++i)
        for (std::size_t j = 1; j <= y.size(); ++j) {
            const std::size_t changed = at(i - 1, j - 1) + (x[i - 1] == y[j - 1] ? 0U : 1U);
            at(i, j) = std::min({at(i - 1, j) + 1, at(i, j - 1) + 1, changed});
            if (i > 1 && j > 1 && x[i - 1] == y[j - 2] && x[i - 2] == y[j - 1])
                at(i, j) = std::min(at(i, j), at(i - 2, j - 2) + 1);
        }
    return at(x.size(), y.size());
}

/// How many slips still look like the same word.
std::size_t tolerated(std::string_view typed) noexcept {
    if (typed.size() <= 3) return 1;
    return typed.size() <= 8 ? 2 : 3;
}

bool beginning_of(std::string_view shorter, std::string_view longer) noexcept {
    constexpr std::size_t telling = 3;
    return shorter.size() >= telling && longer.substr(0, shorter.size()) == shorter;
}

std::vector<std::string_view> parts_of(std::string_view word) {
    constexpr std::size_t telling = 3;
    std::vector<std::string_view> parts;
    while (!word.empty()) {
        const std::size_t end = std::min(word.find('-'), word.size());
        if (end >= telling) parts.push_back(word.substr(0, end));
        word.remove_prefix(std::min(end + 1, word.size()));
    }
    return parts;
}

bool share_a_part(std::string_view x, std::string_view y) {
    const std::vector<std::string_view> others = parts_of(y);
    for (const std::string_view part : parts_of(x))
        if (std::find(others.begin(), others.end(), part) != others.end()) return true;
    return false;
}

}  // namespace

std::string_view near_miss(std::string_view typed, std::span<const std::string_view> known) {
    if (typed.size() > longest_typed) return {};
    std::string_view best;
    std::size_t fewest = tolerated(typed) + 1;
    for (const std::string_view word : known) {
        const std::size_t count = slips(typed, word);
        if (count >= fewest) continue;
        fewest = count;
        best = word;
    }
    if (!best.empty()) return best;
    for (const std::string_view word : known)
        if (beginning_of(typed, word) || beginning_of(word, typed)) return word;
    return {};
}

std::vector<std::string_view> related(std::string_view typed,
                                      std::span<const std::string_view> known) {
    std::vector<std::string_view> found;
    if (typed.size() > longest_typed) return found;
    for (const std::string_view word : known)
        if (share_a_part(typed, word)) found.push_back(word);
    std::stable_sort(found.begin(), found.end(), [&](std::string_view x, std::string_view y) {
        return slips(typed, x) < slips(typed, y);
    });
    if (found.size() > most_related) found.resize(most_related);
    return found;
}

std::string suggestion(std::string_view typed, std::span<const std::string_view> known,
                       std::string_view otherwise) {
    const std::string_view meant = near_miss(typed, known);
    if (!meant.empty()) return fmt::format("did you mean '{}'?", meant);
    const std::vector<std::string_view> words = related(typed, known);
    if (words.empty()) return std::string{otherwise};
    return fmt::format("did you mean one of {}? Otherwise: {}", fmt::join(words, ", "), otherwise);
}

}  // namespace courthand::script
