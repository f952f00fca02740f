#include "script/lines_by_hand.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "script/fact_lines.h"
#include "script/format_clauses.h"
#include "script/written.h"

namespace courthand::script {
namespace {

/// Fewer neighbours than this are written one by one.
constexpr int shortest_run = 3;

SpokenFact spoken(const Fact& fact) {
    return {.fact = fact, .text = {}};
}

// --- the format of the match --------------------------------------------------------------------

void read_format_clause(LineReader& line, MatchFormat& format) {
    const std::string word = line.word("a clause of the format");
    if (word == "best-of" || word == "sets") {
        read_sets(line, format, word == "sets");
        return;
    }
    for (const FormatClause& clause : format_clauses)
        if (clause.word == word) {
            read_clause(line, clause, format);
            return;
        }
    std::vector<std::string_view> known{"best-of", "sets"};
    for (const FormatClause& clause : format_clauses) known.push_back(clause.word);
    line.unknown_word("a clause of the format", word, known);
}

// --- team lists ---------------------------------------------------------------------------------

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

/// "1-6 11 12": neighbours in ascending order become a run.
std::string players(const Roster& roster) {
    std::string out;
    for (int i = 0; i < roster.count;) {
        const auto at = [&](int k) { return roster.players[static_cast<std::size_t>(k)].number(); };
        int end = i + 1;
        while (end < roster.count && at(end) == at(end - 1) + 1) ++end;
        if (end - i < shortest_run) end = i + 1;
        out += ' ' + written(roster.players[static_cast<std::size_t>(i)]);
        if (end > i + 1) out += '-' + written(roster.players[static_cast<std::size_t>(end - 1)]);
        i = end;
    }
    return out;
}

std::string read_name(LineReader& line) {
    std::string name = line.quoted("the team's name");
    if (utf8_length(name).characters > longest_name)
        line.fail(fmt::format("the name has more than {} characters", longest_name),
                  "shorten it; it must fit on a score sheet");
    if (name.empty())
        line.fail("the team's name is empty", "write the name between the quotation marks");
    return name;
}

// --- notes --------------------------------------------------------------------------------------

/// In the order of the verbs of a note.
constexpr std::array<Note::Kind, line_of<Note>.verbs.size()> note_kinds{
    Note::Kind::remark, Note::Kind::officials, Note::Kind::signature};

}  // namespace

SpokenFact read_by_hand(As<MatchOpened>, std::string_view, LineReader& line,
                        const MatchFormat& standard) {
    MatchFormat format = standard;
    do read_format_clause(line, format);
    while (!line.at_end());
    return spoken(MatchOpened{format});
}

std::string written_by_hand(const MatchOpened& fact, std::string_view) {
    const MatchFormat& m = fact.format;
    return fmt::format(
        "format {} {} points {} deciding {} lead {} cap {} deciding-cap {} start {} switch {}",
        m.all_sets_played != 0 ? "sets" : "best-of", m.sets, m.points, m.deciding_points, m.lead,
        m.cap, m.deciding_cap, m.start_score, m.switch_at);
}

SpokenFact read_by_hand(As<Roster>, std::string_view, LineReader& line, const MatchFormat&) {
    Roster roster{.team = line.team()};
    std::string name;
    std::uint32_t column = 0;
    if (line.next_is_quoted()) {
        name = read_name(line);
        column = line.column();
    }
    line.require("players");
    while (line.next_is_number()) read_players(line, roster);
    if (roster.count == 0) read_players(line, roster);
    if (line.accept("captain")) roster.captain = line.jersey("the captain's number");
    return {.fact = roster, .text = std::move(name), .text_column = column};
}

std::string written_by_hand(const Roster& fact, std::string_view text) {
    std::string out = "team " + written(fact.team);
    if (!text.empty()) out += ' ' + written_text(text);
    out += " players" + players(fact);
    if (fact.captain.worn()) out += " captain " + written(fact.captain);
    return out;
}

SpokenFact read_by_hand(As<LineUp>, std::string_view, LineReader& line, const MatchFormat&) {
    LineUp sheet{.team = line.team()};
    for (Jersey& place : sheet.order)
        if (!line.accept("none")) place = line.jersey("the number of a player in the order");
    if (line.accept("liberos")) {
        sheet.liberos[0] = line.libero_box(a_box);
        if (!line.at_end() && !line.next_is("captain")) sheet.liberos[1] = line.libero_box(a_box);
    }
    if (line.accept("captain")) sheet.captain = line.jersey("the captain's number");
    return spoken(sheet);
}

std::string written_by_hand(const LineUp& fact, std::string_view) {
    std::string out = "lineup " + written(fact.team);
    for (const Jersey jersey : fact.order) out += ' ' + written(jersey);
    if (fact.liberos != decltype(fact.liberos){})
        out += " liberos " + written(fact.liberos[0]) + ' ' + written(fact.liberos[1]);
    if (fact.captain.worn()) out += " captain " + written(fact.captain);
    return out;
}

SpokenFact read_by_hand(As<Serve>, std::string_view, LineReader& line, const MatchFormat&) {
    if (line.at_end()) return spoken(Serve{});
    Serve serve{.team = line.team()};
    serve.server = line.jersey("the number of the server");
    return spoken(serve);
}

std::string written_by_hand(const Serve& fact, std::string_view) {
    if (!fact.server.worn()) return "serve";
    return "serve " + written(fact.team) + ' ' + written(fact.server);
}

SpokenFact read_by_hand(As<PositionalFault>, std::string_view, LineReader& line,
                        const MatchFormat&) {
    PositionalFault fault{.team = line.team()};
    if (!line.at_end()) fault.player = line.jersey("the number of the player out of position");
    if (!line.at_end()) fault.neighbour = line.jersey("the number of the player next to him");
    return spoken(fault);
}

std::string written_by_hand(const PositionalFault& fact, std::string_view) {
    std::string out = "positional-fault " + written(fact.team);
    if (fact.player.worn()) out += ' ' + written(fact.player);
    if (fact.player.worn() && fact.neighbour.worn()) out += ' ' + written(fact.neighbour);
    return out;
}

SpokenFact read_by_hand(As<Substitution>, std::string_view, LineReader& line, const MatchFormat&) {
    Substitution request{.team = line.team()};
    do {
        Pair pair;
        pair.in = line.jersey(comes_in.what);
        line.require("for");
        pair.out = line.jersey(goes_out.what);
        if (request.count == most_pairs)
            line.fail(fmt::format("more than {} pairs in one request", most_pairs),
                      "six players are on court; write a second request on its own line");
        else
            request.pairs[request.count++] = pair;
    } while (!line.at_end());
    return spoken(request);
}

std::string written_by_hand(const Substitution& fact, std::string_view) {
    std::string out = "sub " + written(fact.team);
    for (std::size_t i = 0; i < fact.count; ++i)
        out += ' ' + written(fact.pairs[i].in) + " for " + written(fact.pairs[i].out);
    return out;
}

SpokenFact read_by_hand(As<Ruling>, std::string_view, LineReader& line, const MatchFormat&) {
    Ruling ruling;
    ruling.decision = line.choice(decision_words, "a decision");
    ruling.reason = line.reason();
    ruling.team = line.team();
    if (ruling.decision == Ruling::Decision::accept && line.accept(moment_unknown_word))
        ruling.decision = Ruling::Decision::accept_moment_unknown;
    return spoken(ruling);
}

std::string written_by_hand(const Ruling& fact, std::string_view) {
    const bool unknown = fact.decision == Ruling::Decision::accept_moment_unknown;
    const auto decision = unknown ? Ruling::Decision::accept : fact.decision;
    return fmt::format("ruling {} {} {}{}{}", word_of(decision_words, decision),
                       describe(fact.reason).word, written(fact.team), unknown ? " " : "",
                       unknown ? moment_unknown_word : std::string_view{});
}

SpokenFact read_by_hand(As<Protest>, std::string_view, LineReader& line, const MatchFormat&) {
    const Protest protest{line.team()};
    std::string text = line.next_is_quoted() ? line.quoted("the text") : std::string{};
    return {.fact = protest, .text = std::move(text)};
}

std::string written_by_hand(const Protest& fact, std::string_view text) {
    const std::string out = "protest " + written(fact.team);
    return text.empty() ? out : out + ' ' + written_text(text);
}

SpokenFact read_by_hand(As<Note>, std::string_view verb, LineReader& line, const MatchFormat&) {
    Note note;
    for (std::size_t i = 0; i < note_kinds.size(); ++i)
        if (line_of<Note>.verbs[i] == verb) note.kind = note_kinds[i];
    return {.fact = note, .text = line.quoted("the text")};
}

std::string written_by_hand(const Note& fact, std::string_view text) {
    for (std::size_t i = 0; i < note_kinds.size(); ++i)
        if (note_kinds[i] == fact.kind)
            return std::string{line_of<Note>.verbs[i]} + ' ' + written_text(text);
    return {};
}

}  // namespace courthand::script
