// Reads a profile file (TOML). The table of parameters says for every key what it may hold and
// where it goes in `Rules`; the reader itself knows no key by name.
#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <sstream>

#include <fmt/format.h>
#include <xxhash.h>
#include <toml.hpp>

#include "courthand/rules/profile.h"
#include "rules/parameter_table.h"

namespace courthand {
namespace {

using rules::Parameter;

/// Values of a file are inline tables: { value = 6, source = "…, rule 15.1" }.
struct Found {
    std::string key;
    const toml::value* entry;
};

[[nodiscard]] bool has(const toml::value& entry, const char* field) {
    if (!entry.is_table()) return false;
    return entry.contains(field);
}

/// A text of a table; empty when there is none.
[[nodiscard]] std::string text_at(const toml::value& table, const char* field) {
    if (!has(table, field)) return {};
    const toml::value& value = table.at(field);
    return value.is_string() ? value.as_string().str : std::string{};
}

[[nodiscard]] std::string key_under(const std::string& prefix, const std::string& name) {
    if (prefix.empty()) return name;
    return prefix + "." + name;
}

void flatten(const toml::value& table, const std::string& prefix, std::vector<Found>& out) {
    for (const auto& [name, item] : table.as_table()) {
        const std::string key = key_under(prefix, name);
        const bool leaf = !item.is_table() || has(item, "value") || has(item, "source");
        if (leaf)
            out.push_back({key, &item});
        else
            flatten(item, key, out);
    }
}

[[nodiscard]] std::uint32_t line_of(const toml::value& value) {
    return static_cast<std::uint32_t>(value.location().line());
}

/// Number of letters two words do not share at the same place; enough to find a slip of the hand.
[[nodiscard]] std::size_t difference(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t above = row[j];
            row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] != b[j - 1])});
            diagonal = above;
        }
    }
    return row.back();
}

[[nodiscard]] std::string nearest_key(std::string_view key) {
    const auto schema = rules::parameter_table();
    const auto best =
        std::min_element(schema.begin(), schema.end(), [&](const Parameter& a, const Parameter& b) {
            return difference(key, a.key) < difference(key, b.key);
        });
    return std::string{best->key};
}

[[nodiscard]] std::optional<int> value_of(const Parameter& p, const toml::value& value) {
    switch (p.kind) {
        case Parameter::Kind::number:
            if (value.is_integer() && value.as_integer() >= p.least && value.as_integer() <= p.most)
                return static_cast<int>(value.as_integer());
            return std::nullopt;
        case Parameter::Kind::truth:
            if (value.is_boolean()) return value.as_boolean() ? 1 : 0;
            return std::nullopt;
        case Parameter::Kind::word:
            break;
    }
    if (!value.is_string()) return std::nullopt;
    const std::string& text = value.as_string().str;
    for (std::size_t i = 0; i < p.words.size(); ++i)
        if (!p.words[i].empty() && p.words[i] == text) return static_cast<int>(i);
    return std::nullopt;
}

[[nodiscard]] Evidence evidence_of(std::string_view source) {
    if (source.starts_with("memory")) return Evidence::memory;
    if (source.starts_with("common practice")) return Evidence::practice;
    if (source.starts_with("open:")) return Evidence::open;
    return Evidence::published;
}

[[nodiscard]] std::string written(const toml::value& value) {
    if (value.is_string()) return value.as_string().str;
    return toml::format(value);
}

/// On which line of the file a key stands; inherited keys have none.
using Lines = std::map<std::string, std::uint32_t, std::less<>>;

/// The last line on which one of the keys stands: there the mistake was made.
[[nodiscard]] std::uint32_t last_of(const Lines& lines,
                                    std::initializer_list<std::string_view> keys) {
    std::uint32_t last = 0;
    for (const std::string_view key : keys)
        if (const auto found = lines.find(key); found != lines.end())
            last = std::max(last, found->second);
    return last;
}

/// Reads one file onto a profile that may already hold inherited values.
class Reader {
  public:
    Reader(Profile& profile, Lines& lines, std::vector<ProfileError>& errors)
        : profile_{profile}, lines_{lines}, errors_{errors} {}

    void read(const toml::value& root) {
        std::vector<Found> found;
        flatten(root, "", found);
        std::sort(found.begin(), found.end(), [](const Found& a, const Found& b) {
            return line_of(*a.entry) < line_of(*b.entry);
        });
        for (const Found& f : found)
            if (!about_the_file(f.key)) take(f);
    }

    /// Keys that were read in this book too, with the same value under the same rule number: their
    /// inherited source moves from the parent's book to this one.
    void read_same_rules(const toml::value& root, const std::string& parents_book,
                         const std::string& book) {
        if (!has(root, "same-rule")) return;
        const toml::value& list = root.at("same-rule");
        if (!list.is_array()) {
            error(list, "\"same-rule\" is no list of keys", "write [\"match.points\", …]");
            return;
        }
        for (const toml::value& key : list.as_array())
            read_same_rule(key, key.is_string() ? key.as_string().str : std::string{},
                           parents_book + ", ", book);
    }

  private:
    [[nodiscard]] static bool about_the_file(std::string_view key) {
        return key == "id" || key == "title" || key == "inherits" || key == "same-rule";
    }

    void read_same_rule(const toml::value& at, const std::string& key, const std::string& from,
                        const std::string& book) {
        const auto inherited = std::find_if(profile_.values.begin(), profile_.values.end(),
                                            [&](const ProfileValue& v) { return v.key == key; });
        if (inherited == profile_.values.end() || !inherited->source.starts_with(from)) {
            error(at, fmt::format("\"{}\" is not inherited from a rule of the parent's book", key),
                  "leave it out of \"same-rule\" and write value and source");
            return;
        }
        inherited->source = book + inherited->source.substr(from.size() - 2);
        lines_[key] = line_of(at);
    }

    void take(const Found& f) {
        const Parameter* p = rules::parameter(f.key);
        if (p == nullptr) {
            error(*f.entry, fmt::format("unknown key \"{}\"", f.key),
                  fmt::format("the nearest known key is \"{}\"", nearest_key(f.key)));
            return;
        }
        const std::string source = text_at(*f.entry, "source");
        if (!has(*f.entry, "value") || source.empty()) {
            error(*f.entry, fmt::format("\"{}\" has no value and source", f.key),
                  "write { value = …, source = \"rule book, edition, rule\" }, or source = "
                  "\"memory\"");
            return;
        }
        const toml::value& value = f.entry->at("value");
        const std::optional<int> number = value_of(*p, value);
        if (!number) {
            error(value, fmt::format("\"{}\" cannot be {}", f.key, written(value)),
                  fmt::format("write {}", rules::allowed(*p)));
            return;
        }
        p->set(profile_.rules, *number);
        lines_[f.key] = line_of(*f.entry);
        keep({f.key, written(value), source, Evidence::published});
    }

    void keep(ProfileValue value) {
        value.evidence = evidence_of(value.source);
        const auto old = std::find_if(profile_.values.begin(), profile_.values.end(),
                                      [&](const ProfileValue& v) { return v.key == value.key; });
        if (old == profile_.values.end())
            profile_.values.push_back(std::move(value));
        else
            *old = std::move(value);
    }

    void error(const toml::value& at, std::string message, std::string cure) {
        errors_.push_back({line_of(at), std::move(message), std::move(cure)});
    }

    Profile& profile_;
    Lines& lines_;
    std::vector<ProfileError>& errors_;
};

/// The line after which a missing key belongs: the last one of its table, or of the file.
[[nodiscard]] std::uint32_t place_for(const Lines& lines, std::string_view key) {
    const std::string_view table = key.substr(0, key.find('.') + 1);
    std::uint32_t of_table = 0;
    std::uint32_t of_file = 1;
    for (const auto& [other, line] : lines) {
        of_file = std::max(of_file, line);
        if (!table.empty() && other.starts_with(table)) of_table = std::max(of_table, line);
    }
    return of_table != 0 ? of_table : of_file;
}

void require_all(const Profile& profile, const Lines& lines, std::vector<ProfileError>& errors) {
    for (const Parameter& p : rules::parameter_table()) {
        const bool there = std::any_of(profile.values.begin(), profile.values.end(),
                                       [&](const ProfileValue& v) { return v.key == p.key; });
        if (!there)
            errors.push_back({place_for(lines, p.key), fmt::format("missing key \"{}\"", p.key),
                              fmt::format("add it with {} and its source, or inherit from a "
                                          "profile that has it",
                                          rules::allowed(p))});
    }
}

/// A deciding set as long as a set of the older kind.
constexpr std::uint8_t long_deciding_set = 25;

void choose_switch(Rules& r) {
    if (r.format.deciding_points >= long_deciding_set) r.format.switch_at = r.switch_at_long;
}

/// Pairs of values that cannot both hold.
void contradictions(const Rules& r, const Lines& lines, std::vector<ProfileError>& errors) {
    const auto say = [&](bool wrong, std::initializer_list<std::string_view> keys,
                         std::string message, std::string cure) {
        if (wrong) errors.push_back({last_of(lines, keys), std::move(message), std::move(cure)});
    };
    const MatchFormat& f = r.format;
    say(f.all_sets_played == 0 && f.sets % 2 == 0, {"match.sets", "match.all-sets-played"},
        "match.sets is even", "a match that is won by a majority of sets has 1, 3 or 5");
    say(f.cap != 0 && f.cap < f.points, {"match.cap", "match.points"},
        "match.cap is below match.points", "raise the cap, or write 0 for none");
    say(f.deciding_cap != 0 && f.deciding_cap < f.deciding_points,
        {"match.deciding-cap", "match.deciding-points"},
        "match.deciding-cap is below match.deciding-points", "raise the cap, or write 0 for none");
    say(f.switch_at >= f.deciding_points,
        {"match.switch-at", "match.switch-at-long", "match.deciding-points"},
        "match.switch-at is not below match.deciding-points",
        "courts change before the deciding set ends: 8 of 15, 13 of 25");
    say(f.start_score >= f.points, {"match.start-score", "match.points"},
        "match.start-score is not below match.points", "lower the start score");
    say(r.serve_exception != 0 && r.libero_serving_positions == 0,
        {"libero.serve-exception", "libero.serving-positions"},
        "libero.serve-exception without libero.serving-positions",
        "a libero who may not serve needs no exception: set it to false");
    say(r.designation == DesignationScope::match_or_set && r.liberos_per_set < 2,
        {"libero.designation", "libero.per-set"},
        "libero.designation \"match-or-set\" with one libero per set",
        "set libero.per-set to 2, or the designation to \"set\"");
}

[[nodiscard]] std::uint64_t hash_of(const Profile& profile) {
    std::string all = profile.id;
    std::vector<std::string> lines;
    for (const ProfileValue& v : profile.values) lines.push_back(v.key + "=" + v.value);
    std::sort(lines.begin(), lines.end());
    for (const std::string& line : lines) all += "\n" + line;
    return XXH3_64bits(all.data(), all.size());
}

[[nodiscard]] std::optional<toml::value> parse(std::string_view text,
                                               std::vector<ProfileError>& errors) {
    std::istringstream stream{std::string{text}};
    try {
        return toml::parse(stream, "profile");
    } catch (const toml::exception& e) {
        const std::string what = e.what();
        errors.push_back({static_cast<std::uint32_t>(e.location().line()),
                          "not a TOML file: " + what.substr(0, what.find('\n')),
                          "put the line right; texts stand in double quotes"});
    }
    return std::nullopt;
}

/// A chain of inheritance is short: a house profile and at most four editions, and never a circle.
constexpr int most_ancestors = 4;

/// The book a profile follows: the source of its family.
[[nodiscard]] std::string book_of(const Profile& profile) {
    for (const ProfileValue& v : profile.values)
        if (v.key == "family") return v.source;
    return {};
}

void read_onto(Profile& profile, Lines& lines, std::string_view text, ProfileText base,
               std::vector<ProfileError>& errors, int depth) {
    const auto root = parse(text, errors);
    if (!root) return;
    const std::string parent = text_at(*root, "inherits");
    if (!parent.empty()) {
        const std::string parent_text =
            base == nullptr || depth == 0 ? std::string{} : base(parent);
        if (parent_text.empty()) {
            errors.push_back({line_of(root->at("inherits")),
                              fmt::format("cannot inherit from \"{}\"", parent),
                              "name a built-in profile, and no circle of profiles"});
            return;
        }
        read_onto(profile, lines, parent_text, base, errors, depth - 1);
        lines.clear();
    }
    profile.id = text_at(*root, "id");
    profile.title = text_at(*root, "title");
    if (profile.id.empty())
        errors.push_back({1, "the profile has no id", "begin the file with id = \"…\""});
    const std::string parents_book = book_of(profile);
    Reader reader{profile, lines, errors};
    reader.read(*root);
    reader.read_same_rules(*root, parents_book, book_of(profile));
}

}  // namespace

std::variant<Profile, std::vector<ProfileError>> read_profile(std::string_view text,
                                                              ProfileText base) {
    Profile profile;
    std::vector<ProfileError> errors;
    Lines lines;
    read_onto(profile, lines, text, base, errors, most_ancestors);
    if (errors.empty()) require_all(profile, lines, errors);
    choose_switch(profile.rules);
    if (errors.empty()) contradictions(profile.rules, lines, errors);
    if (!errors.empty()) return errors;
    profile.hash = hash_of(profile);
    return profile;
}

}  // namespace courthand
