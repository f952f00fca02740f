#include <fmt/format.h>

#include <string>
#include <type_traits>
#include <utility>

#include "courthand/script/script.h"
#include "script/words.h"

namespace courthand {
namespace script {
namespace {

/// Fewer neighbours than this are written one by one.
constexpr int shortest_run = 3;

char letter(Team team) noexcept {
    return team == Team::A ? 'A' : 'B';
}

std::string number(Jersey jersey) {
    return jersey.worn() ? std::to_string(static_cast<unsigned>(jersey.number())) : "none";
}

std::string quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (c == '\n')
            out += "\\n";
        else if (c == '\t')
            out += "\\t";
        else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
            out += ' ';
        else
            out += c;
    }
    return out + '"';
}

std::string box(const LiberoBox& box) {
    switch (box.mark) {
        case LiberoBox::Mark::blank:
            return "?";
        case LiberoBox::Mark::none:
            return "none";
        case LiberoBox::Mark::number:
            return number(box.number);
    }
    return {};
}

/// "1-6 11 12": neighbours in ascending order become a run.
std::string players(const Roster& roster) {
    std::string out;
    for (int i = 0; i < roster.count;) {
        const auto at = [&](int k) { return roster.players[static_cast<std::size_t>(k)].number(); };
        int end = i + 1;
        while (end < roster.count && at(end) == at(end - 1) + 1) ++end;
        if (end - i < shortest_run) end = i + 1;
        out += ' ' + number(roster.players[static_cast<std::size_t>(i)]);
        if (end > i + 1) out += '-' + number(roster.players[static_cast<std::size_t>(end - 1)]);
        i = end;
    }
    return out;
}

/// Writes one fact. `text` is the name of a team or the words of a note.
class FactWriter {
  public:
    explicit FactWriter(std::string_view text) : text_{text} {}

    std::string operator()(const MatchOpened& f) const {
        const MatchFormat& m = f.format;
        return fmt::format(
            "format {} {} points {} deciding {} lead {} cap {} deciding-cap {} start {} switch {}",
            m.all_sets_played != 0 ? "sets" : "best-of", m.sets, m.points, m.deciding_points,
            m.lead, m.cap, m.deciding_cap, m.start_score, m.switch_at);
    }
    std::string operator()(const Roster& f) const {
        std::string out = fmt::format("team {}", letter(f.team));
        if (!text_.empty()) out += ' ' + quoted(text_);
        out += " players" + players(f);
        if (f.captain.worn()) out += " captain " + number(f.captain);
        return out;
    }
    std::string operator()(const Toss& f) const {
        return fmt::format("toss serve {} left {}", letter(f.serves), letter(f.left));
    }
    std::string operator()(const SetStarted& f) const { return fmt::format("set {}", f.number); }
    std::string operator()(const LineUp& f) const {
        std::string out = fmt::format("lineup {}", letter(f.team));
        for (const Jersey jersey : f.order) out += ' ' + number(jersey);
        if (f.liberos != decltype(f.liberos){})
            out += fmt::format(" liberos {} {}", box(f.liberos[0]), box(f.liberos[1]));
        if (f.captain.worn()) out += " captain " + number(f.captain);
        return out;
    }
    std::string operator()(const LiberoBoxSettled& f) const {
        return fmt::format("box {} {} {}", letter(f.team), f.box + 1, box(f.entry));
    }
    std::string operator()(const LineUpChecked& f) const { return of("checked", f.team); }
    std::string operator()(const Whistle&) const { return "whistle"; }
    std::string operator()(const Serve& f) const {
        if (!f.server.worn()) return "serve";
        return fmt::format("serve {} {}", letter(f.team), number(f.server));
    }
    std::string operator()(const RallyWon& f) const { return of("rally", f.team); }
    std::string operator()(const Replay&) const { return "replay"; }
    std::string operator()(const PositionalFault& f) const {
        std::string out = of("positional-fault", f.team);
        if (f.player.worn()) out += ' ' + number(f.player);
        if (f.player.worn() && f.neighbour.worn()) out += ' ' + number(f.neighbour);
        return out;
    }
    std::string operator()(const LiberoReplacement& f) const {
        return fmt::format("libero {} {} for {}", letter(f.team), number(f.in), number(f.out));
    }
    std::string operator()(const Substitution& f) const {
        std::string out = of("sub", f.team);
        for (std::size_t i = 0; i < f.count; ++i)
            out += fmt::format(" {} for {}", number(f.pairs[i].in), number(f.pairs[i].out));
        return out;
    }
    std::string operator()(const ExceptionalSubstitution& f) const {
        return fmt::format("exceptional {} {} for {} {}", letter(f.team), number(f.in),
                           number(f.out), word_of(cause_words, f.cause));
    }
    std::string operator()(const TimeOut& f) const { return of("timeout", f.team); }
    std::string operator()(const GameCaptain& f) const { return of("captain", f.team, f.player); }
    std::string operator()(const LiberoUnable& f) const {
        return of("unable", f.team, f.libero) + ' ' + std::string{word_of(cause_words, f.cause)};
    }
    std::string operator()(const Redesignation& f) const {
        return fmt::format("redesignate {} {} for {}", letter(f.team), number(f.in), number(f.out));
    }
    std::string operator()(const Misconduct& f) const {
        return fmt::format("misconduct {} {} {}", letter(f.team),
                           f.person.worn() ? number(f.person) : "bench",
                           word_of(sanction_words, f.sanction));
    }
    std::string operator()(const Delay& f) const {
        return of("delay", f.team) + ' ' + std::string{word_of(sanction_words, f.sanction)};
    }
    std::string operator()(const ImproperRequest& f) const { return of("improper", f.team); }
    std::string operator()(const Injury& f) const { return of("injury", f.team, f.player); }
    std::string operator()(const Recovery& f) const { return of("recovery", f.team, f.player); }
    std::string operator()(const CourtSwitch&) const { return "switch"; }
    std::string operator()(const Interval&) const { return "interval"; }
    std::string operator()(const Interrupted&) const { return "interrupted"; }
    std::string operator()(const Resumed& f) const {
        return "resumed " + std::string{word_of(resumed_words, f.how)};
    }
    std::string operator()(const Ruling& f) const {
        const bool unknown = f.decision == Ruling::Decision::accept_moment_unknown;
        const auto decision = unknown ? Ruling::Decision::accept : f.decision;
        return fmt::format("ruling {} {} {}{}{}", word_of(decision_words, decision),
                           describe(f.reason).word, letter(f.team), unknown ? " " : "",
                           unknown ? moment_unknown_word : std::string_view{});
    }
    std::string operator()(const Incomplete& f) const {
        return of("incomplete", f.team) + ' ' + std::string{word_of(scope_words, f.scope)};
    }
    std::string operator()(const Default& f) const { return of("default", f.team); }
    std::string operator()(const Protest& f) const {
        return text_.empty() ? of("protest", f.team) : of("protest", f.team) + ' ' + quoted(text_);
    }
    std::string operator()(const ScoreCorrection& f) const {
        return fmt::format("score-fix {} {}", f.score.a, f.score.b);
    }
    std::string operator()(const Note& f) const {
        switch (f.kind) {
            case Note::Kind::remark:
                return "remark " + quoted(text_);
            case Note::Kind::signature:
                return "sign " + quoted(text_);
            case Note::Kind::officials:
                return "officials " + quoted(text_);
        }
        return {};
    }

  private:
    static std::string of(std::string_view verb, Team team) {
        return fmt::format("{} {}", verb, letter(team));
    }
    static std::string of(std::string_view verb, Team team, Jersey jersey) {
        return fmt::format("{} {} {}", verb, letter(team), number(jersey));
    }

    std::string_view text_;
};

std::string fact_text(const Fact& fact, std::string_view text) {
    return std::visit(FactWriter{text}, fact);
}

std::string record_text(const Record& record, std::string_view text) {
    return std::visit(
        [&](const auto& r) -> std::string {
            using Kind = std::decay_t<decltype(r)>;
            if constexpr (std::is_same_v<Kind, Fact>)
                return fact_text(r, text);
            else if constexpr (std::is_same_v<Kind, Strike>)
                return fmt::format("strike @{}", r.target);
            else if constexpr (std::is_same_v<Kind, Insert>)
                return fmt::format("insert @{} {}", r.after, fact_text(r.fact, text));
            else
                return fmt::format("amend @{} {}", r.target, fact_text(r.fact, text));
        },
        record);
}

const Roster* roster_of(const Record& record) {
    const Fact* fact = std::get_if<Fact>(&record);
    if (const auto* const insert = std::get_if<Insert>(&record)) fact = &insert->fact;
    if (const auto* const amend = std::get_if<Amend>(&record)) fact = &amend->fact;
    return fact == nullptr ? nullptr : std::get_if<Roster>(fact);
}

// --- expectations -------------------------------------------------------------------------------

std::string remedy_text(const Expectation& e) {
    std::string out;
    if (e.has_remedy) {
        out += fmt::format(" remedy {}", word_of(action_words, e.action));
        if (e.remedy_has_team) out += fmt::format(" {}", letter(e.remedy_team));
    }
    if (e.has_cancel) out += fmt::format(" cancel {}", e.cancel);
    return out;
}

std::string numbers_text(const Expectation& e) {
    std::string out;
    for (std::size_t i = 0; i < e.count; ++i) out += ' ' + number(e.numbers[i]);
    return out;
}

/// What follows the first word of an expectation.
std::string expectation_rest(const Expectation& e) {
    using Kind = Expectation::Kind;
    switch (e.kind) {
        case Kind::legal:
        case Kind::none:
            return {};
        case Kind::armed:
        case Kind::open:
        case Kind::raised:
        case Kind::cleared:
        case Kind::appeared:
        case Kind::vanished:
        case Kind::changed:
            return fmt::format(" {} {}{}", describe(e.reason).word, letter(e.team), remedy_text(e));
        case Kind::score:
            return fmt::format(" {} {}", e.score.a, e.score.b) +
                   (e.set != 0 ? fmt::format(" set {}", e.set) : std::string{});
        case Kind::sets:
            return fmt::format(" A {} B {}", e.score.a, e.score.b);
        case Kind::serving:
        case Kind::winner:
        case Kind::left:
            return fmt::format(" {}", letter(e.team));
        case Kind::server:
        case Kind::court:
        case Kind::captain:
        case Kind::liberos:
            return fmt::format(" {}{}", letter(e.team), numbers_text(e));
        case Kind::libero_on:
            return fmt::format(" {} on {} for {}", letter(e.team), number(e.numbers[0]),
                               number(e.numbers[1]));
        case Kind::libero_off:
            return fmt::format(" {} off", letter(e.team));
        case Kind::subs:
        case Kind::improper:
        case Kind::delays:
        case Kind::timeouts:
            return fmt::format(" {} {}", letter(e.team), e.count);
    }
    return {};
}

/// Whether reading gives the same format when the line is left out.
bool format_of_profile(const Record& record, const Profile* profile) {
    const Fact* const fact = std::get_if<Fact>(&record);
    const auto* const opened = fact == nullptr ? nullptr : std::get_if<MatchOpened>(fact);
    return profile != nullptr && opened != nullptr && opened->format == profile->rules.format;
}

/// One line without control characters, so that it stays a comment.
std::string comment(std::string text) {
    for (char& c : text)
        if ((static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7F) c = ' ';
    return text;
}

}  // namespace
}  // namespace script

std::string script_line(const Record& record) {
    return script::record_text(record, {});
}

std::string script_line(const Expectation& expectation) {
    const Expectation::Kind kind = expectation.kind == Expectation::Kind::libero_off
                                       ? Expectation::Kind::libero_on
                                       : expectation.kind;
    return fmt::format("expect {}{}", script::word_of(script::expectation_words, kind),
                       script::expectation_rest(expectation));
}

std::string write_script(const Script& script, const FindProfile& profiles) {
    std::string out;
    if (!script.source.empty()) out += "# " + script::comment(script.source) + '\n';
    out += "profile " + script.profile + '\n';
    PerTeam<bool> named{};
    bool first = true;
    for (const ScriptLine& line : script.lines) {
        const auto* const record = std::get_if<Record>(&line.content);
        if (record == nullptr) {
            out += script_line(std::get<Expectation>(line.content)) + '\n';
            continue;
        }
        const bool opening = std::exchange(first, false);
        if (opening && script::format_of_profile(*record, profiles(script.profile))) continue;
        std::string_view text = line.text;
        if (const Roster* const roster = script::roster_of(*record); roster != nullptr)
            text = std::exchange(named[roster->team], true) ? std::string_view{}
                                                            : script.names[roster->team];
        out += script::record_text(*record, text) + '\n';
    }
    return out;
}

std::string write_script(const Script& script) {
    return write_script(script, find_profile);
}

}  // namespace courthand
