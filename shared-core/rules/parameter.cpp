// Parameters looked at from outside: who acts on them, and what rests on a value not seen in print.
#include "courthand/rules/parameter.h"

#include <fmt/format.h>

#include <charconv>

#include "rules/parameter_table.h"

namespace courthand {
namespace {

using rules::Parameter;

[[nodiscard]] int number_in(std::string_view text) noexcept {
    int number = 0;
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number;
}

/// The number a value as written stands for; values of a read profile are always right.
[[nodiscard]] int stored(const Parameter& p, std::string_view value) noexcept {
    switch (p.kind) {
        case Parameter::Kind::number:
            return number_in(value);
        case Parameter::Kind::truth:
            return value == "true" ? 1 : 0;
        case Parameter::Kind::word:
            break;
    }
    const auto* const found = std::find(p.words.begin(), p.words.end(), value);
    return static_cast<int>(found - p.words.begin());
}

[[nodiscard]] std::string_view value_at(const Profile& profile, std::string_view key) noexcept {
    for (const ProfileValue& v : profile.values)
        if (v.key == key) return v.value;
    return {};
}

}  // namespace

std::vector<ParameterRow> parameter_rows() {
    std::vector<ParameterRow> rows;
    for (const Parameter& p : rules::parameter_table())
        rows.push_back({p.key, p.acted_by, p.reasons.all(), p.actions.all()});
    return rows;
}

std::vector<std::string> other_values(const Profile& profile, std::string_view key) {
    const Parameter* const p = rules::parameter(key);
    if (p == nullptr) return {};
    const std::string_view own = value_at(profile, key);
    std::vector<std::string> all;
    if (p->kind == Parameter::Kind::truth) {
        all = {"true", "false"};
    } else if (p->kind == Parameter::Kind::word) {
        for (const std::string_view w : p->words)
            if (!w.empty()) all.emplace_back(w);
    } else {
        const int now = number_in(own);
        for (const int other : {p->least, now - 1, now + 1, p->most})
            if (other >= p->least && other <= p->most) all.push_back(std::to_string(other));
    }
    all.erase(std::remove(all.begin(), all.end(), own), all.end());
    return all;
}

Rules with_value(const Rules& rules, std::string_view key, std::string_view value) {
    Rules changed = rules;
    if (const Parameter* const p = rules::parameter(key)) p->set(changed, stored(*p, value));
    return changed;
}

std::vector<const ProfileValue*> unproven_values(const Profile& profile, Reason reason,
                                                 Action action) {
    std::vector<const ProfileValue*> found;
    for (const ProfileValue& v : profile.values) {
        if (v.evidence == Evidence::published) continue;
        const Parameter* const p = rules::parameter(v.key);
        if (p != nullptr && (p->reasons.has(reason) || p->actions.has(action))) found.push_back(&v);
    }
    return found;
}

std::string_view evidence_word(Evidence evidence) noexcept {
    switch (evidence) {
        case Evidence::published:
            return "published";
        case Evidence::practice:
            return "common practice";
        case Evidence::open:
            return "open";
        case Evidence::memory:
            return "memory";
    }
    return {};
}

std::string unproven_words(const Profile& profile, Reason reason, Action action) {
    std::string words;
    for (const ProfileValue* v : unproven_values(profile, reason, action))
        words += fmt::format("{}{} = {} ({})", words.empty() ? "" : ", ", v->key, v->value,
                             evidence_word(v->evidence));
    return words.empty() ? words : "rests on values not seen in print: " + words;
}

}  // namespace courthand
