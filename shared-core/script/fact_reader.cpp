#include "script/fact_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace courthand::script {
namespace {

SpokenFact spoken(const Fact& fact) {
    return {.fact = fact, .text = {}};
}

// --- before the match ---------------------------------------------------------------------------

/// One clause of a format line: a word, a number and the field it fills.
struct FormatClause {
    std::string_view word;
    std::string_view what;
    unsigned low;
    unsigned high;
    std::uint8_t MatchFormat::*field;
};

constexpr std::array<FormatClause, 7> format_clauses{{
    {"points", "the points of a set", 1, most_points, &MatchFormat::points},
    {"deciding", "the points of the deciding set", 1, most_points, &MatchFormat::deciding_points},
    {"lead", "the lead that wins a set", 1, 20, &MatchFormat::lead},
    {"cap", "the score that ends a set", 0, most_points, &MatchFormat::cap},
    {"deciding-cap", "the score that ends the deciding set", 0, most_points,
     &MatchFormat::deciding_cap},
    {"start", "the score a set begins with", 0, most_points, &MatchFormat::start_score},
    {"switch", "the score at which courts change", 0, most_points, &MatchFormat::switch_at},
}};

void read_sets(LineReader& line, MatchFormat& format, bool all_played) {
    format.sets = line.number("the number of sets", 1, MatchFormat::most_sets);
    format.all_sets_played = all_played ? 1 : 0;
    if (!all_played && format.sets % 2 == 0)
        line.fail(fmt::format("best of {} can end in a draw", format.sets),
                  "write best-of 1, 3 or 5; a fixed number of sets is 'sets 2'");
}

void read_format_clause(LineReader& line, MatchFormat& format) {
    const std::string word = line.word("a clause of the format");
    if (word == "best-of" || word == "sets") {
        read_sets(line, format, word == "sets");
        return;
    }
    for (const FormatClause& clause : format_clauses)
        if (clause.word == word) {
            format.*clause.field = line.number(clause.what, clause.low, clause.high);
            // Courts change half-way, 8 of 15 and 13 of 25, unless a later clause says otherwise.
            if (clause.field == &MatchFormat::deciding_points)
                format.switch_at = static_cast<std::uint8_t>((format.deciding_points + 1) / 2);
            return;
        }
    std::vector<std::string_view> known{"best-of", "sets"};
    for (const FormatClause& clause : format_clauses) known.push_back(clause.word);
    line.unknown_word("a clause of the format", word, known);
}

SpokenFact read_format(LineReader& line, const MatchFormat& standard) {
    MatchFormat format = standard;
    do read_format_clause(line, format);
    while (!line.at_end());
    return spoken(MatchOpened{format});
}

void add_player(LineReader& line, Roster& roster, Jersey player) {
    const auto* const begin = roster.players.data();
    const auto* const end = begin + roster.count;
    if (std::find(begin, end, player) != end) {
        line.fail(fmt::format("player {} is listed twice", player.number()),
                  "write each number once");
    } else if (roster.count == most_players) {
        line.fail(fmt::format("more than {} players", most_players),
                  "no code lets a team list more; leave out those who do not play");
    } else {
        roster.players[roster.count++] = player;
    }
}

/// "7", or "1-6" for a run of numbers.
void read_players(LineReader& line, Roster& roster) {
    const std::string typed = line.word("a player's number");
    const std::size_t dash = typed.find('-');
    LineReader first{Tokens{{Token{typed.substr(0, dash), 1, false}}, 1}, 0};
    LineReader last{
        Tokens{{Token{dash == std::string::npos ? typed : typed.substr(dash + 1), 1, false}}, 1},
        0};
    const std::uint8_t low = first.jersey().number();
    const std::uint8_t high = last.jersey().number();
    if (first.failed() || last.failed() || high < low) {
        line.fail(fmt::format("'{}' is neither a number nor a run of numbers", typed),
                  "write a number from 0 to 99, or a run such as 1-6, the smaller one first");
        return;
    }
    for (std::uint8_t n = low; n <= high && !line.failed(); ++n)
        add_player(line, roster, Jersey{n});
}

SpokenFact read_team(LineReader& line, const MatchFormat& /*standard*/) {
    Roster roster{.team = line.team()};
    std::string name;
    std::uint32_t column = 0;
    if (line.next_is_quoted()) {
        name = line.quoted("the team's name");
        column = line.column();
        if (utf8_length(name).characters > longest_name)
            line.fail(fmt::format("the name has more than {} characters", longest_name),
                      "shorten it; it must fit on a score sheet");
        if (name.empty())
            line.fail("the team's name is empty", "write the name between the quotation marks");
    }
    line.require("players");
    while (line.next_is_number()) read_players(line, roster);
    if (roster.count == 0) read_players(line, roster);
    if (line.accept("captain")) roster.captain = line.jersey("the captain's number");
    return {.fact = roster, .text = std::move(name), .text_column = column};
}

SpokenFact read_toss(LineReader& line, const MatchFormat& /*standard*/) {
    Toss toss;
    line.require("serve");
    toss.serves = line.team();
    line.require("left");
    toss.left = line.team();
    return spoken(toss);
}

SpokenFact read_set(LineReader& line, const MatchFormat& /*standard*/) {
    return spoken(SetStarted{line.number("the number of the set", 1, MatchFormat::most_sets)});
}

// --- line-up sheets -----------------------------------------------------------------------------

LiberoBox read_box(LineReader& line) {
    if (line.accept("none")) return {.mark = LiberoBox::Mark::none, .number = {}};
    if (line.accept("?")) return {};
    return {.mark = LiberoBox::Mark::number,
            .number = line.jersey("a libero's number, 'none' or '?'")};
}

SpokenFact read_lineup(LineReader& line, const MatchFormat& /*standard*/) {
    LineUp sheet{.team = line.team()};
    for (Jersey& place : sheet.order)
        if (!line.accept("none")) place = line.jersey("the number of a player in the order");
    if (line.accept("liberos")) {
        sheet.liberos[0] = read_box(line);
        if (!line.at_end() && !line.next_is("captain")) sheet.liberos[1] = read_box(line);
    }
    if (line.accept("captain")) sheet.captain = line.jersey("the captain's number");
    return spoken(sheet);
}

SpokenFact read_libero_box(LineReader& line, const MatchFormat& /*standard*/) {
    LiberoBoxSettled settled{.team = line.team()};
    settled.box =
        static_cast<std::uint8_t>(line.number("the number of the box", 1, libero_boxes) - 1);
    settled.entry = read_box(line);
    return spoken(settled);
}

// --- play ---------------------------------------------------------------------------------------

SpokenFact read_serve(LineReader& line, const MatchFormat& /*standard*/) {
    if (line.at_end()) return spoken(Serve{});
    Serve serve{.team = line.team()};
    serve.server = line.jersey("the number of the server");
    return spoken(serve);
}

SpokenFact read_positional_fault(LineReader& line, const MatchFormat& /*standard*/) {
    PositionalFault fault{.team = line.team()};
    if (!line.at_end()) fault.player = line.jersey("the number of the player out of position");
    if (!line.at_end()) fault.neighbour = line.jersey("the number of the player next to him");
    return spoken(fault);
}

SpokenFact read_libero(LineReader& line, const MatchFormat& /*standard*/) {
    LiberoReplacement replacement{.team = line.team()};
    replacement.in = line.jersey("the number of the player who comes in");
    line.require("for");
    replacement.out = line.jersey("the number of the player who goes out");
    return spoken(replacement);
}

Pair read_pair(LineReader& line) {
    Pair pair;
    pair.in = line.jersey("the number of the player who comes in");
    line.require("for");
    pair.out = line.jersey("the number of the player who goes out");
    return pair;
}

SpokenFact read_substitution(LineReader& line, const MatchFormat& /*standard*/) {
    Substitution request{.team = line.team()};
    do {
        const Pair pair = read_pair(line);
        if (request.count == most_pairs)
            line.fail(fmt::format("more than {} pairs in one request", most_pairs),
                      "six players are on court; write a second request on its own line");
        else
            request.pairs[request.count++] = pair;
    } while (!line.at_end());
    return spoken(request);
}

SpokenFact read_exceptional(LineReader& line, const MatchFormat& /*standard*/) {
    ExceptionalSubstitution change{.team = line.team()};
    const Pair pair = read_pair(line);
    change.in = pair.in;
    change.out = pair.out;
    if (!line.at_end()) change.cause = line.choice(cause_words, "a cause");
    return spoken(change);
}

// --- people -------------------------------------------------------------------------------------

SpokenFact read_captain(LineReader& line, const MatchFormat& /*standard*/) {
    GameCaptain named{.team = line.team()};
    named.player = line.jersey("the number of the game captain");
    return spoken(named);
}

SpokenFact read_unable(LineReader& line, const MatchFormat& /*standard*/) {
    LiberoUnable unable{.team = line.team()};
    unable.libero = line.jersey("the number of the libero");
    if (!line.at_end()) unable.cause = line.choice(cause_words, "a cause");
    return spoken(unable);
}

SpokenFact read_redesignation(LineReader& line, const MatchFormat& /*standard*/) {
    Redesignation change{.team = line.team()};
    change.in = line.jersey("the number of the new libero");
    line.require("for");
    change.out = line.jersey("the number of the libero whose place is taken");
    return spoken(change);
}

SpokenFact read_misconduct(LineReader& line, const MatchFormat& /*standard*/) {
    Misconduct misconduct{.team = line.team()};
    if (!line.accept("bench")) misconduct.person = line.jersey("a player's number or 'bench'");
    misconduct.sanction = line.choice(sanction_words, "a sanction");
    return spoken(misconduct);
}

SpokenFact read_delay(LineReader& line, const MatchFormat& /*standard*/) {
    Delay delay{.team = line.team()};
    delay.sanction = line.choice(delay_words, "a delay sanction");
    return spoken(delay);
}

template <class PersonFact>
SpokenFact read_person(LineReader& line, const MatchFormat& /*standard*/) {
    PersonFact fact{.team = line.team()};
    fact.player = line.jersey();
    return spoken(fact);
}

// --- facts that name a team, or nothing ---------------------------------------------------------

template <class TeamFact>
SpokenFact read_of_team(LineReader& line, const MatchFormat& /*standard*/) {
    return spoken(TeamFact{line.team()});
}

template <class BareFact>
SpokenFact read_bare(LineReader& /*line*/, const MatchFormat& /*standard*/) {
    return spoken(BareFact{});
}

// --- officials ----------------------------------------------------------------------------------

SpokenFact read_ruling(LineReader& line, const MatchFormat& /*standard*/) {
    Ruling ruling;
    ruling.decision = line.choice(decision_words, "a decision");
    ruling.reason = line.reason();
    ruling.team = line.team();
    if (ruling.decision == Ruling::Decision::accept && line.accept(moment_unknown_word))
        ruling.decision = Ruling::Decision::accept_moment_unknown;
    return spoken(ruling);
}

SpokenFact read_resumed(LineReader& line, const MatchFormat& /*standard*/) {
    return spoken(Resumed{line.choice(resumed_words, "a way to go on")});
}

SpokenFact read_incomplete(LineReader& line, const MatchFormat& /*standard*/) {
    Incomplete incomplete{.team = line.team()};
    incomplete.scope = line.choice(scope_words, "a scope");
    return spoken(incomplete);
}

SpokenFact read_score_fix(LineReader& line, const MatchFormat& /*standard*/) {
    ScoreCorrection correction;
    correction.score.a = line.number("the points of team A", 0, most_points);
    correction.score.b = line.number("the points of team B", 0, most_points);
    return spoken(correction);
}

SpokenFact read_protest(LineReader& line, const MatchFormat& /*standard*/) {
    const Protest protest{line.team()};
    std::string text = line.next_is_quoted() ? line.quoted("the text") : std::string{};
    return {.fact = protest, .text = std::move(text)};
}

template <Note::Kind kind>
SpokenFact read_note(LineReader& line, const MatchFormat& /*standard*/) {
    return {.fact = Note{kind}, .text = line.quoted("the text")};
}

struct Verb {
    std::string_view word;
    SpokenFact (*read)(LineReader&, const MatchFormat&);
};

constexpr std::array<Verb, 36> verbs{{
    {"format", read_format},
    {"team", read_team},
    {"toss", read_toss},
    {"set", read_set},
    {"lineup", read_lineup},
    {"box", read_libero_box},
    {"checked", read_of_team<LineUpChecked>},
    {"whistle", read_bare<Whistle>},
    {"serve", read_serve},
    {"rally", read_of_team<RallyWon>},
    {"replay", read_bare<Replay>},
    {"positional-fault", read_positional_fault},
    {"libero", read_libero},
    {"sub", read_substitution},
    {"exceptional", read_exceptional},
    {"timeout", read_of_team<TimeOut>},
    {"captain", read_captain},
    {"unable", read_unable},
    {"redesignate", read_redesignation},
    {"misconduct", read_misconduct},
    {"delay", read_delay},
    {"improper", read_of_team<ImproperRequest>},
    {"injury", read_person<Injury>},
    {"recovery", read_person<Recovery>},
    {"switch", read_bare<CourtSwitch>},
    {"interval", read_bare<Interval>},
    {"interrupted", read_bare<Interrupted>},
    {"resumed", read_resumed},
    {"ruling", read_ruling},
    {"incomplete", read_incomplete},
    {"default", read_of_team<Default>},
    {"protest", read_protest},
    {"score-fix", read_score_fix},
    {"remark", read_note<Note::Kind::remark>},
    {"officials", read_note<Note::Kind::officials>},
    {"sign", read_note<Note::Kind::signature>},
}};

}  // namespace

std::optional<SpokenFact> read_fact(std::string_view verb, LineReader& line,
                                    const MatchFormat& standard) {
    for (const Verb& known : verbs)
        if (known.word == verb) return known.read(line, standard);
    return std::nullopt;
}

std::vector<std::string_view> fact_verbs() {
    std::vector<std::string_view> words;
    for (const Verb& verb : verbs) words.push_back(verb.word);
    return words;
}

}  // namespace courthand::script
