// The round trip law over random records of every kind, not only over those people wrote.
#include <gtest/gtest.h>

#include <random>

#include "script_of.h"
#include "tests/facts/draw_fact.h"

namespace courthand {
namespace {

constexpr unsigned seed = 1895;
constexpr int scripts = 60;
constexpr int records_each = 120;

using testing::As;

/// Draws facts that a table can record: every number is worn where the fact needs one.
class Dice {
  public:
    std::uint8_t below(unsigned limit) { return static_cast<std::uint8_t>(random_() % limit); }
    bool coin() { return below(2) == 1; }
    Team team() { return coin() ? Team::A : Team::B; }
    Jersey jersey() { return Jersey{below(100)}; }
    Jersey maybe() { return below(5) == 0 ? Jersey::none() : jersey(); }

    Team draw(const Bounds<Team>&) { return team(); }
    Jersey draw(const Bounds<Jersey>& bounds) { return bounds.may_be_none ? maybe() : jersey(); }
    std::uint8_t draw(const Bounds<std::uint8_t>& bounds) {
        return bounds.kept(
            static_cast<std::uint8_t>(bounds.least + below(bounds.most - bounds.least + 1U)));
    }
    template <Choice Value>
    Value draw(const Bounds<Value>& bounds) {
        return static_cast<Value>(below(static_cast<unsigned>(bounds.allowed)));
    }
    Reason draw(const Bounds<Reason>&) { return static_cast<Reason>(below(reason_count)); }
    LiberoBox draw(const Bounds<LiberoBox>&) {
        const LiberoBox boxes[] = {{},
                                   {.mark = LiberoBox::Mark::none, .number = {}},
                                   {.mark = LiberoBox::Mark::number, .number = jersey()}};
        return boxes[below(3)];
    }
    Score draw(const Bounds<Score>&) { return {below(200), below(200)}; }
    MatchFormat draw(const Bounds<MatchFormat>&) { return format(); }

    Fact by_hand(As<Roster>) { return roster(team()); }
    Fact by_hand(As<LineUp>) {
        LineUp sheet{.team = team()};
        for (Jersey& place : sheet.order) place = maybe();
        sheet.liberos = {draw(Bounds<LiberoBox>{}), draw(Bounds<LiberoBox>{})};
        sheet.captain = maybe();
        return sheet;
    }
    Fact by_hand(As<Serve>) { return coin() ? Serve{} : Serve{team(), jersey()}; }
    Fact by_hand(As<Substitution>) {
        Substitution request{.team = team()};
        request.count = static_cast<std::uint8_t>(1 + below(most_pairs));
        for (std::size_t i = 0; i < request.count; ++i) request.pairs[i] = {jersey(), jersey()};
        return request;
    }
    Fact by_hand(As<PositionalFault>) {
        return coin() ? PositionalFault{team(), {}, {}}
                      : PositionalFault{team(), jersey(), maybe()};
    }

    Roster roster(Team team) {
        Roster roster{.team = team};
        roster.count = static_cast<std::uint8_t>(1 + below(most_players));
        const std::uint8_t first = below(40);
        for (std::size_t i = 0; i < roster.count; ++i)
            roster.players[i] =
                Jersey{static_cast<std::uint8_t>(first + i + (i > 5 ? 1U : 0U) + (i % 7) / 6)};
        // Neighbours may fall together above; a list names each number once.
        for (std::size_t i = 1; i < roster.count; ++i)
            if (roster.players[i] <= roster.players[i - 1])
                roster.players[i] =
                    Jersey{static_cast<std::uint8_t>(roster.players[i - 1].number() + 1)};
        roster.captain = maybe();
        return roster;
    }
    MatchFormat format() {
        MatchFormat f;
        f.all_sets_played = below(2);
        f.sets = f.all_sets_played != 0 ? static_cast<std::uint8_t>(1 + below(5))
                                        : static_cast<std::uint8_t>(1 + 2 * below(3));
        f.points = static_cast<std::uint8_t>(1 + below(60));
        f.deciding_points = static_cast<std::uint8_t>(1 + below(60));
        f.lead = static_cast<std::uint8_t>(1 + below(4));
        f.cap = below(70);
        f.deciding_cap = below(70);
        f.start_score = below(9);
        f.switch_at = below(20);
        return f;
    }
    Fact fact() { return testing::draw_fact(*this, below(kind_count)); }
    Record record(EntryNumber last) {
        const auto target = static_cast<EntryNumber>(1 + random_() % last);
        switch (below(12)) {
            case 0:
                return Strike{target};
            case 1:
                return Insert{target, fact()};
            case 2:
                return Amend{target, fact()};
            default:
                return fact();
        }
    }
    std::string words() {
        constexpr std::string_view letters = "ab \"\\#\n\té@?-";
        std::string out;
        for (int n = below(12); n > 0; --n) out += letters[below(8)];
        return out;
    }

  private:
    std::mt19937 random_{seed};
};

/// Notes and protests carry words; nothing else does.
bool carries_words(const Record& record) {
    const Fact* fact = std::get_if<Fact>(&record);
    if (const auto* const insert = std::get_if<Insert>(&record)) fact = &insert->fact;
    if (const auto* const amend = std::get_if<Amend>(&record)) fact = &amend->fact;
    return fact != nullptr &&
           (std::holds_alternative<Note>(*fact) || std::holds_alternative<Protest>(*fact));
}

Script random_script(Dice& dice) {
    Script script;
    script.source = "memory";
    script.profile = "us-domestic-2014";
    script.names = {"Harbour \"Lights\"", "Saltmarsh"};
    script.lines.push_back({0, Record{Fact{MatchOpened{dice.format()}}}, {}});
    for (const Team team : {Team::A, Team::B})
        script.lines.push_back({0, Record{Fact{dice.roster(team)}}, {}});
    for (int i = 0; i < records_each; ++i) {
        const Record record = dice.record(static_cast<EntryNumber>(script.lines.size()));
        script.lines.push_back({0, record, carries_words(record) ? dice.words() : std::string{}});
    }
    return script;
}

TEST(RandomRecords, ReadBackEqual) {
    Dice dice;
    for (int i = 0; i < scripts; ++i) {
        const Script script = random_script(dice);
        const std::string text = write_script(script);
        const Script again = script_of(text);
        ASSERT_EQ(again.lines.size(), script.lines.size()) << text;
        for (std::size_t k = 0; k < script.lines.size(); ++k)
            ASSERT_TRUE(again.lines[k] == script.lines[k])
                << "entry " << k + 1 << ": "
                << script_line(std::get<Record>(script.lines[k].content));
        EXPECT_TRUE(again == script);
    }
}

}  // namespace
}  // namespace courthand
