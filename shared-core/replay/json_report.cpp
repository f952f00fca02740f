#include <fmt/format.h>
#include <fmt/ranges.h>

#include "courthand/rules/parameter.h"
#include "replay/report.h"
#include "replay/words.h"

namespace courthand::replay {
namespace {

std::string jersey_json(Jersey jersey) {
    return jersey.worn() ? number(jersey) : "null";
}

std::string six_json(const Six& six) {
    std::vector<std::string> numbers;
    for (const Jersey jersey : six) numbers.push_back(jersey_json(jersey));
    return fmt::format("[{}]", fmt::join(numbers, ","));
}

std::string score_json(Score score) {
    return fmt::format(R"({{"A":{},"B":{}}})", score.a, score.b);
}

std::string remedy_json(const Remedy& r) {
    return fmt::format(
        R"({{"action":"{}","team":"{}","cancel":{},"restore":{},"score":{},"serves":"{}"}})",
        word_of(script::action_words, r.action), letter(r.team), r.cancel, r.restore,
        score_json(r.score), letter(r.serves));
}

std::string unproven_json(const Verdict& v, const Profile& profile) {
    std::vector<std::string> keys;
    for (const ProfileValue* value : unproven_values(profile, v.reason, v.remedy.action))
        keys.push_back(json_string(value->key));
    return fmt::format("[{}]", fmt::join(keys, ","));
}

std::string verdict_json(const Verdict& v, const Profile& profile) {
    return fmt::format(
        R"({{"phase":"{}","reason":"{}","team":"{}","players":[{},{}],"entry":{},"set":{},)"
        R"("rally":{},"before":{},"after":{},"remedy":{},"unproven":{}}})",
        word_of(phase_words, v.phase), describe(v.reason).word, letter(v.team),
        jersey_json(v.players[0]), jersey_json(v.players[1]), v.entry, v.set, v.rally,
        six_json(v.before), six_json(v.after), remedy_json(v.remedy), unproven_json(v, profile));
}

std::string list_json(const VerdictList& list, const Profile& profile) {
    std::vector<std::string> items;
    for (const Verdict& v : list) items.push_back(verdict_json(v, profile));
    return fmt::format("[{}]", fmt::join(items, ","));
}

std::string changes_json(const std::vector<VerdictChange>& changes, const Profile& profile) {
    using Kind = VerdictChange::Kind;
    std::vector<std::string> items;
    for (const VerdictChange& change : changes) {
        const std::string was =
            change.kind == Kind::appeared ? "null" : verdict_json(change.before, profile);
        const std::string is =
            change.kind == Kind::vanished ? "null" : verdict_json(change.after, profile);
        items.push_back(fmt::format(R"({{"change":"{}","was":{},"is":{}}})",
                                    change_word(change.kind), was, is));
    }
    return fmt::format("[{}]", fmt::join(items, ","));
}

std::string liberos_json(const TeamSet& side) {
    std::vector<std::string> items;
    for (const SlotRecord& slot : side.slots)
        if (slot.replaced.worn())
            items.push_back(fmt::format(R"({{"libero":{},"for":{}}})", jersey_json(slot.on_court),
                                        jersey_json(slot.replaced)));
    return fmt::format("[{}]", fmt::join(items, ","));
}

std::string side_json(const TeamSet& side) {
    return fmt::format(
        R"({{"court":{},"liberos":{},"captain":{},"substitutions":{},"time_outs":{}}})",
        six_json(on_court(side)), liberos_json(side), jersey_json(side.game_captain),
        side.substitutions, side.time_outs);
}

std::string state_json(const MatchState& state) {
    const SetState& set = state.set;
    return fmt::format(
        R"({{"set":{},"stage":"{}","score":{},"sets":{},"serving":"{}","A":{},"B":{}}})",
        set.number, word_of(stage_words, set.stage), score_json(set.score),
        score_json({state.team.a.sets_won, state.team.b.sets_won}), letter(set.serving),
        side_json(set.team.a), side_json(set.team.b));
}

}  // namespace

std::string json_string(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\')
            out += fmt::format("\\{}", c);
        else if (static_cast<unsigned char>(c) < 0x20)
            out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
        else
            out += c;
    }
    return out + '"';
}

std::string json_report(const ScriptReplay& replay, const Profile& profile) {
    const ScriptLine& line = replay.line();
    if (replay.at_expectation())
        return fmt::format(R"({{"line":{},"expect":{},"holds":{},"found":{}}})"
                           "\n",
                           line.line, json_string(script_line(std::get<Expectation>(line.content))),
                           replay.found().empty(), json_string(replay.found()));
    return fmt::format(R"({{"line":{},"entry":{},"fact":{},"text":{},"raised":{},"standing":{},)"
                       R"("changes":{},"state":{}}})"
                       "\n",
                       line.line, replay.entry(),
                       json_string(script_line(std::get<Record>(line.content))),
                       json_string(line.text), list_json(replay.raised(), profile),
                       list_json(replay.standing(), profile),
                       changes_json(replay.changes(), profile), state_json(replay.state()));
}

std::string json_summary(const MatchState& state, std::size_t failed) {
    const bool over = state.set.stage == Stage::match_over;
    return fmt::format(R"({{"end":true,"sets":{},"winner":{},"failed":{},"state_hash":"{:016x}"}})"
                       "\n",
                       score_json({state.team.a.sets_won, state.team.b.sets_won}),
                       over ? fmt::format("\"{}\"", letter(state.winner)) : std::string{"null"},
                       failed, state_hash(state));
}

}  // namespace courthand::replay
