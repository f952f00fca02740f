#include "client/session/fact_words.h"

#include <string>

namespace courthand::client {
namespace {

bool is_cause(const Fact& fact) {
    return std::holds_alternative<Injury>(fact) || std::holds_alternative<Recovery>(fact) ||
           std::holds_alternative<LiberoUnable>(fact) ||
           std::holds_alternative<ExceptionalSubstitution>(fact);
}

bool is_signature(const Fact& fact) {
    const auto* note = std::get_if<Note>(&fact);
    return note != nullptr && note->kind == Note::Kind::signature;
}

bool is_officials(const Fact& fact) {
    const auto* note = std::get_if<Note>(&fact);
    return note != nullptr && note->kind == Note::Kind::officials;
}

}  // namespace

void add_words(const Fact& fact, std::string_view words, v1::Fact& out) {
    if (words.empty()) return;
    const std::string text{words};
    v1::FactText& beside = *out.mutable_text();
    if (is_cause(fact))
        beside.set_cause_words(text);
    else if (is_signature(fact))
        beside.mutable_signature()->set_role(text);
    else if (is_officials(fact))
        beside.add_officials()->set_role(text);
    else
        beside.set_remark(text);
}

void add_team(const Roster& roster, const MatchSheet& sheet, v1::Fact& out) {
    v1::FactText& beside = *out.mutable_text();
    beside.set_team_name(sheet.names[roster.team]);
    const std::string& colour = sheet.colours[roster.team];
    if (colour.size() > 1) beside.set_colour(colour.substr(1));
}

}  // namespace courthand::client
