// Reads a chain file (TOML): a few settings, the worth of results in match points, and the steps.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <sstream>
#include <toml.hpp>

#include "courthand/standings/chain.h"

namespace courthand::standings {
namespace {

template <class Value>
struct Word {
    std::string_view text;
    Value value;
    std::string_view spoken = {};
};

constexpr std::array criteria{
    Word<Criterion>{"matches-won", Criterion::matches_won, "matches won"},
    Word<Criterion>{"match-points", Criterion::match_points, "match points"},
    Word<Criterion>{"set-quotient", Criterion::set_quotient, "set quotient"},
    Word<Criterion>{"set-percentage", Criterion::set_percentage, "sets won of sets played"},
    Word<Criterion>{"set-difference", Criterion::set_difference, "set difference"},
    Word<Criterion>{"point-quotient", Criterion::point_quotient, "point quotient"},
    Word<Criterion>{"point-percentage", Criterion::point_percentage, "points won of points played"},
    Word<Criterion>{"point-difference", Criterion::point_difference, "point difference"},
    Word<Criterion>{"points-against", Criterion::points_against, "points against, fewer is better"},
    Word<Criterion>{"last-match", Criterion::last_match, "last match between them"},
    Word<Criterion>{"beat-all-others", Criterion::beat_all_others,
                    "beat all others that are level"},
    Word<Criterion>{"lost-to-all-others", Criterion::lost_to_all_others,
                    "lost to all others that are level"},
};
constexpr std::array scopes{Word<Scope>{"all", Scope::all}, Word<Scope>{"mutual", Scope::mutual}};
constexpr std::array sizes{Word<Tied>{"any", Tied::any}, Word<Tied>{"two", Tied::two},
                           Word<Tied>{"three-or-more", Tied::three_or_more}};
constexpr std::array after_split{Word<AfterSplit>{"restart", AfterSplit::restart},
                                 Word<AfterSplit>{"go-on", AfterSplit::go_on}};
constexpr std::array mutual_among{Word<MutualAmong>{"still-tied", MutualAmong::still_tied},
                                  Word<MutualAmong>{"first-tied", MutualAmong::first_tied}};
constexpr std::array deciders{Word<Decider>{"lot", Decider::lot, "by lot"},
                              Word<Decider>{"play-off", Decider::play_off, "by a play-off"},
                              Word<Decider>{"director", Decider::director, "by the director"}};

template <class Value, std::size_t N>
[[nodiscard]] std::string all_of(const std::array<Word<Value>, N>& words) {
    std::string all;
    for (const Word<Value>& w : words)
        all += fmt::format("{}\"{}\"", all.empty() ? "" : ", ", w.text);
    return all;
}

/// More match points than any table gives.
constexpr int most_points = 9;

class Reader {
  public:
    explicit Reader(const toml::value& root) : root_{root} {}

    std::variant<Chain, Faults> read() {
        known_keys(root_, {"id", "title", "source", "edition", "reading", "after-split",
                           "mutual-among", "last-resort", "match-points", "step"});
        chain_.id = text(root_, "id", true);
        chain_.title = text(root_, "title", true);
        chain_.source = text(root_, "source", true);
        chain_.edition = text(root_, "edition", true);
        chain_.reading = text(root_, "reading", false);
        chain_.after_split = setting("after-split", after_split);
        chain_.mutual_among = setting("mutual-among", mutual_among);
        chain_.last_resort = setting("last-resort", deciders);
        if (root_.contains("match-points")) worth(root_.at("match-points"));
        steps();
        if (faults_.empty()) separates();
        if (!faults_.empty()) return faults_;
        return chain_;
    }

  private:
    void say(const toml::value& at, std::string message, std::string cure) {
        faults_.push_back(
            {fmt::format("line {}", at.location().line()), std::move(message), std::move(cure)});
    }

    void known_keys(const toml::value& table, std::initializer_list<std::string_view> keys) {
        for (const auto& [key, item] : table.as_table())
            if (std::find(keys.begin(), keys.end(), key) == keys.end())
                say(item, fmt::format("unknown key \"{}\"", key), "strike it, or correct its name");
    }

    std::string text(const toml::value& table, const char* key, bool required) {
        if (!table.contains(key)) {
            if (required)
                say(table, fmt::format("{} is missing", key), fmt::format("write {} = \"…\"", key));
            return {};
        }
        const toml::value& value = table.at(key);
        if (!value.is_string() || value.as_string().str.empty()) {
            say(value, fmt::format("{} is not a text", key), fmt::format("write {} = \"…\"", key));
            return {};
        }
        return value.as_string().str;
    }

    template <class Value, std::size_t N>
    Value word(const toml::value& at, const std::string& key, const std::string& found,
               const std::array<Word<Value>, N>& words) {
        for (const Word<Value>& w : words)
            if (w.text == found) return w.value;
        say(at, fmt::format("{} cannot be \"{}\"", key, found), "write one of " + all_of(words));
        return words.front().value;
    }

    /// A setting is { value = "…", source = "…" }.
    template <class Value, std::size_t N>
    Value setting(const char* key, const std::array<Word<Value>, N>& words) {
        if (!root_.contains(key) || !root_.at(key).is_table()) {
            say(root_, fmt::format("{} is missing", key),
                fmt::format("write {} = {{ value = …, source = \"…\" }} with one of {}", key,
                            all_of(words)));
            return words.front().value;
        }
        const toml::value& table = root_.at(key);
        known_keys(table, {"value", "source"});
        text(table, "source", true);
        return word(table, key, text(table, "value", true), words);
    }

    void worth(const toml::value& table) {
        if (!table.is_table()) {
            say(table, "match-points is not a table", "write [match-points]");
            return;
        }
        for (const auto& [key, item] : table.as_table()) worth_of(key, item);
        std::sort(chain_.worth.begin(), chain_.worth.end(), [](const Worth& a, const Worth& b) {
            return a.won != b.won ? a.won > b.won : a.lost < b.lost;
        });
    }

    void worth_of(const std::string& key, const toml::value& item) {
        const bool readable = item.is_table() && item.contains("value") &&
                              item.at("value").is_integer() &&
                              std::abs(item.at("value").as_integer()) <= most_points;
        if (!readable) {
            say(item, fmt::format("match points of \"{}\" are not a number", key),
                fmt::format("write \"{}\" = {{ value = 3, source = \"…\" }}, from -{} to {}", key,
                            most_points, most_points));
            return;
        }
        const auto points = static_cast<std::int8_t>(item.at("value").as_integer());
        const std::string source = text(item, "source", true);
        if (key == "forfeit") {
            chain_.forfeit_points = points;
            return;
        }
        const auto digit = [&](std::size_t i) { return key[i] >= '0' && key[i] <= '5'; };
        if (key.size() != 3 || !digit(0) || key[1] != '-' || !digit(2)) {
            say(item, fmt::format("\"{}\" is not a result in sets", key),
                "write sets won and lost, as \"3-1\", or forfeit");
            return;
        }
        chain_.worth.push_back({static_cast<std::uint8_t>(key[0] - '0'),
                                static_cast<std::uint8_t>(key[2] - '0'), points, source});
    }

    void steps() {
        if (!root_.contains("step") || !root_.at("step").is_array()) {
            say(root_, "the chain has no steps", "write at least one [[step]]");
            return;
        }
        for (const toml::value& item : root_.at("step").as_array()) {
            if (item.is_table())
                step(item);
            else
                say(item, "a step is not a table", "write [[step]]");
        }
        if (chain_.steps.size() > Chain::most_steps)
            say(root_,
                fmt::format("{} steps; a chain has {} at most", chain_.steps.size(),
                            Chain::most_steps),
                "strike those that repeat others");
    }

    void step(const toml::value& item) {
        known_keys(item, {"criterion", "matches", "tied", "play-off-if-cut", "source"});
        Step s;
        s.criterion = word(item, "criterion", text(item, "criterion", true), criteria);
        s.scope = word(item, "matches", text(item, "matches", true), scopes);
        if (item.contains("tied")) s.tied = word(item, "tied", text(item, "tied", true), sizes);
        if (item.contains("play-off-if-cut")) {
            if (item.at("play-off-if-cut").is_boolean())
                s.play_off_if_cut = item.at("play-off-if-cut").as_boolean();
            else
                say(item, "play-off-if-cut is neither true nor false", "write true or false");
        }
        s.source = text(item, "source", true);
        if (s.criterion == Criterion::last_match && s.tied != Tied::two)
            say(item, "the last match is one between two teams", "write tied = \"two\"");
        if (s.scope == Scope::all && of_level_teams(s.criterion))
            say(item,
                fmt::format("{} counts the matches of level teams alone", name_of(s.criterion)),
                "write matches = \"mutual\"");
        if (s.criterion == Criterion::match_points && chain_.worth.empty())
            say(item, "match points without a table of them", "write [match-points]");
        chain_.steps.push_back(std::move(s));
    }

    /// These ask who beat whom among level teams. A step over all matches is not taken again when
    /// fewer teams begin the chain anew, and of fewer teams the answer may be another one.
    [[nodiscard]] static bool of_level_teams(Criterion criterion) noexcept {
        return criterion == Criterion::last_match || criterion == Criterion::beat_all_others ||
               criterion == Criterion::lost_to_all_others;
    }

    /// Each number of level teams needs a step that can tell them apart.
    void separates() {
        const auto meant_for = [&](Tied size) {
            return std::any_of(chain_.steps.begin(), chain_.steps.end(), [&](const Step& s) {
                return s.tied == Tied::any || s.tied == size;
            });
        };
        if (!meant_for(Tied::two))
            say(root_, "the chain never separates two teams",
                "add a step with tied = \"two\" or \"any\"");
        if (!meant_for(Tied::three_or_more))
            say(root_, "the chain never separates three teams or more",
                "add a step with tied = \"three-or-more\" or \"any\"");
    }

    const toml::value& root_;
    Chain chain_;
    Faults faults_;
};

/// A chain file is a page; anything larger is something else.
constexpr std::size_t largest_chain = std::size_t{64} * 1024;

}  // namespace

std::variant<Chain, Faults> read_chain(std::string_view text) {
    if (text.size() > largest_chain)
        return Faults{{"line 1", "too large for a chain", "give the file of one chain"}};
    std::istringstream stream{std::string{text}};
    try {
        const toml::value root = toml::parse(stream, "chain");
        return Reader{root}.read();
    } catch (const toml::exception& e) {
        const std::string what = e.what();
        return Faults{{fmt::format("line {}", e.location().line()),
                       "not a TOML file: " + what.substr(0, what.find('\n')),
                       "put the line right; texts stand in double quotes"}};
    }
}

std::string_view name_of(Criterion criterion) noexcept {
    return criteria[static_cast<std::size_t>(criterion)].text;
}
std::string_view in_words(Criterion criterion) noexcept {
    return criteria[static_cast<std::size_t>(criterion)].spoken;
}
std::string_view in_words(Decider decider) noexcept {
    return deciders[static_cast<std::size_t>(decider)].spoken;
}

}  // namespace courthand::standings
