// From bytes to state: the same as folding the facts directly, whatever the way they are added.
#include "wire/fold_record.h"

#include <gtest/gtest.h>

#include "courthand/rules/judge.h"
#include "entry_kit.h"
#include "every_fact.h"
#include "wire/state_view.h"

namespace courthand::wire {
namespace {

const Rules& rules() {
    const Profile* profile = find_profile("international-2025");
    if (profile == nullptr) throw std::runtime_error{"the profile is not built in"};
    return profile->rules;
}

Roster roster(Team team, int first) {
    Roster list;
    list.team = team;
    for (int i = 0; i < 12; ++i) list.players[list.count++] = kit::n(first + i);
    list.captain = kit::n(first);
    return list;
}

LineUp sheet(Team team, int first) {
    LineUp line_up;
    line_up.team = team;
    for (std::size_t i = 0; i < players_on_court; ++i)
        line_up.order[i] = kit::n(first + static_cast<int>(i));
    line_up.liberos = {LiberoBox{LiberoBox::Mark::number, kit::n(first + 11)},
                       LiberoBox{LiberoBox::Mark::none, {}}};
    line_up.captain = kit::n(first);
    return line_up;
}

/// A match up to the first rallies, with one illegal replacement (no rally between the two).
std::vector<Record> short_match() {
    const auto libero = kit::n(12);
    std::vector<Record> records{
        Fact{MatchOpened{}},
        Fact{roster(Team::A, 1)},
        Fact{roster(Team::B, 31)},
        Fact{Toss{Team::A, Team::A}},
        Fact{SetStarted{1}},
        Fact{sheet(Team::A, 1)},
        Fact{sheet(Team::B, 31)},
        Fact{LineUpChecked{Team::A}},
        Fact{LineUpChecked{Team::B}},
        Fact{LiberoReplacement{Team::A, libero, kit::n(5)}},
        Fact{Serve{}},
        Fact{RallyWon{Team::A}},
        Fact{LiberoReplacement{Team::A, kit::n(5), libero}},
        Fact{LiberoReplacement{Team::A, libero, kit::n(6)}},
        Fact{Serve{}},
        Fact{RallyWon{Team::B}},
    };
    return records;
}

std::vector<Entry> numbered(const std::vector<Record>& records) {
    return effective(records).entries;
}

TEST(FoldRecord, EqualsTheFoldOfTheFacts) {
    const auto records = short_match();
    const auto folded = fold_record(kit::match_id(), rules(), kit::sealed(records));
    ASSERT_FALSE(folded.fault.has_value()) << folded.fault->message();
    EXPECT_EQ(folded.state, fold(rules(), numbered(records)));
    EXPECT_EQ(folded.head.seq, records.size());
    EXPECT_FALSE(folded.verdicts.empty()) << "the second replacement came without a rally";
}

TEST(FoldRecord, CorrectionsFoldEverythingAgain) {
    auto records = short_match();
    const std::vector<Record> corrections{Strike{14},
                                          Insert{16, Fact{TimeOut{Team::A}}},
                                          Amend{16, Fact{RallyWon{Team::A}}},
                                          Fact{Whistle{}},
                                          Strike{17},
                                          Strike{9999}};
    const auto entries = [&] {
        for (const Record& correction : corrections) records.push_back(correction);
        return kit::sealed(records);
    }();
    RecordFold fold_now{kit::match_id(), rules()};
    std::vector<Record> so_far;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        ASSERT_FALSE(fold_now.add(entries[i]).has_value());
        so_far.push_back(records[i]);
        ASSERT_EQ(fold_now.state(), fold(rules(), numbered(so_far))) << "after entry " << i + 1;
        EXPECT_EQ(fold_now.refolded(), !std::holds_alternative<Fact>(records[i]));
        // One by one or all at once: the same verdicts.
        const auto whole = fold_record(kit::match_id(), rules(), std::span{entries}.first(i + 1));
        ASSERT_EQ(fold_now.verdicts(), whole.verdicts) << "after entry " << i + 1;
    }
    EXPECT_EQ(fold_now.without_effect(), std::vector<EntryNumber>{22});
    EXPECT_EQ(fold_now.records(), records);
}

TEST(FoldRecord, StopsAtTheFirstBadEntryAndKeepsWhatIsGood) {
    const auto records = short_match();
    auto entries = kit::sealed(records);
    entries.erase(entries.begin() + 10);
    const auto folded = fold_record(kit::match_id(), rules(), entries);
    ASSERT_TRUE(folded.fault.has_value());
    EXPECT_EQ(folded.fault->chain.kind, ChainFault::Kind::gap);
    EXPECT_EQ(folded.head.seq, 10u);
    EXPECT_EQ(folded.state, fold(rules(), numbered({records.begin(), records.begin() + 10})));
}

TEST(FoldRecord, AnUnreadableFactNamesEntryAndField) {
    v1::Entry entry = kit::blank_entry(1);
    Hasher hasher;
    entry.set_seq(1);
    entry.set_prev_hash(to_bytes(genesis(kit::match_id(), hasher).hash));
    entry.mutable_fact()->mutable_rally_won();
    RecordFold fold_now{kit::match_id(), rules()};
    const auto fault = fold_now.add(entry.SerializeAsString());
    ASSERT_TRUE(fault.has_value());
    EXPECT_NE(fault->message().find("entry 1: fact.rally_won.team"), std::string::npos)
        << fault->message();
    EXPECT_EQ(fold_now.head().seq, 0u);
}

TEST(StateView, ACardShowsTheFoldedState) {
    auto records = short_match();
    records.resize(12);
    const auto folded = fold_record(kit::match_id(), rules(), kit::sealed(records));
    v1::CourtCard card;
    card.set_court(3);
    show(folded.state, card);
    show(folded.state, card);  // a second time adds nothing
    EXPECT_EQ(card.court(), 3u);
    EXPECT_EQ(card.set(), 1u);
    EXPECT_EQ(card.score().a(), 1u);
    EXPECT_EQ(card.score().b(), 0u);
    EXPECT_EQ(card.serving(), v1::TEAM_LETTER_A);
    EXPECT_EQ(card.left(), v1::TEAM_LETTER_A);
    EXPECT_EQ(card.stage(), v1::STAGE_DEAD_BALL);
    EXPECT_EQ(card.winner(), v1::TEAM_LETTER_UNSPECIFIED);
    ASSERT_EQ(card.a().on_court().numbers_size(), 6);
    EXPECT_EQ(card.a().on_court().numbers(4), 12);
    ASSERT_EQ(card.a().liberos_on_size(), 1);
    EXPECT_EQ(card.a().liberos_on(0).libero(), 12u);
    EXPECT_EQ(card.a().liberos_on(0).for_player(), 5u);
    EXPECT_EQ(card.b().liberos_on_size(), 0);
    ASSERT_EQ(card.a().designations_size(), 1);
    EXPECT_EQ(card.a().designations(0).state(), v1::Designation::STATE_ACTIVE);
    EXPECT_EQ(card.state_hash(), state_hash(folded.state));
}

TEST(StateView, BeforeTheTossNothingIsClaimed) {
    v1::CourtCard card;
    show(MatchState{}, card);
    EXPECT_EQ(card.serving(), v1::TEAM_LETTER_UNSPECIFIED);
    EXPECT_EQ(card.left(), v1::TEAM_LETTER_UNSPECIFIED);
    EXPECT_EQ(card.stage(), v1::STAGE_BEFORE_MATCH);
    EXPECT_FALSE(card.a().has_on_court());
    EXPECT_EQ(card.finished_sets_size(), 0);
}

}  // namespace
}  // namespace courthand::wire
