// The tournament's record at the server: what an act of a desk becomes, also when another desk, at
// this server or another, acts at the same moment.
#include "server/tournament/record_keeper.h"

#include <gtest/gtest.h>

#include <future>
#include <random>
#include <thread>

#include "courthand/event/fold.h"
#include "server/store/memory_match_store.h"
#include "server/testing/or_throw.h"
#include "server/tournament/memory_fact_store.h"
#include "tests/testkit/eventually.h"
#include "wire/chain.h"
#include "wire/event_entry.h"

namespace courthand::server::tournament {
namespace {

using event::Fact;
using Fate = Outcome::Fate;

class RecordKeeperTest : public ::testing::Test {
  protected:
    RecordKeeperTest() {
        tournament_ =
            value_or_throw(feed_.create_tournament(TournamentId{new_uuid()}, "Harbour Cup")).id;
    }

    /// Another server of the venue.
    std::unique_ptr<RecordKeeper> another() {
        return std::make_unique<RecordKeeper>(tournament_, store_);
    }
    [[nodiscard]] Act said(FactNumber seen, std::vector<Fact> facts) const {
        Act act;
        act.device = device_;
        act.author = "desk 1";
        act.seen = seen;
        for (Fact& fact : facts) act.facts.push_back({FactId{new_uuid()}, {std::move(fact), ""}});
        return act;
    }
    Outcome act(FactNumber seen, std::vector<Fact> facts) {
        return value_or_throw(keeper_->act(said(seen, std::move(facts))));
    }
    /// A division with a pool of four: its matches are A1 to A6.
    void open_pool() {
        event::DivisionOpened division;
        division.division = "U16";
        division.profile = "international-2025";
        division.chain = "international-2017";
        std::vector<Fact> facts{division};
        for (const char* team : {"Mill Lane", "Quayside", "Saltmarsh", "Harbour Lights"})
            facts.push_back(event::TeamEntered{team, "U16", ""});
        facts.push_back(
            event::SeedsGiven{"U16", 1, {"Mill Lane", "Quayside", "Saltmarsh", "Harbour Lights"}});
        event::DrawMade draw;
        draw.division = "U16";
        facts.push_back(draw);
        const Outcome made = act(keeper_->state()->last(), std::move(facts));
        ASSERT_EQ(made.fate, Fate::kept);
        ASSERT_TRUE(made.findings.empty()) << made.findings.front().fault.message;
        first_match_ = keeper_->state()->match_names.begin()->first;
    }
    [[nodiscard]] event::ResultConfirmed result(const std::string& match,
                                                std::uint16_t loser_points) const {
        event::ResultConfirmed confirmed;
        confirmed.match = match;
        confirmed.from = event::ResultFrom::paper;
        confirmed.sets.assign(3, {25, loser_points});
        return confirmed;
    }
    std::vector<KeptFact> record() {
        return value_or_throw(store_.read(tournament_, 0, most_facts_per_page));
    }

    MemoryMatchStore feed_;
    MemoryFactStore store_{feed_};
    TournamentId tournament_;
    DeviceId device_{new_uuid()};
    std::unique_ptr<RecordKeeper> keeper_ = nullptr;
    std::string first_match_;

    void SetUp() override { keeper_ = another(); }
};

TEST_F(RecordKeeperTest, AnActIsKeptSealedAndFolded) {
    Act opened = said(0, {event::CourtOpened{}, event::NoteWritten{}});
    opened.facts[1].said.words = "The floor of court 1 is wet.";
    const Outcome outcome = value_or_throw(keeper_->act(opened));
    EXPECT_EQ(outcome.fate, Fate::kept);
    EXPECT_EQ(outcome.first, 1u);
    EXPECT_EQ(outcome.last, 2u);
    EXPECT_EQ(keeper_->state()->courts.size(), 1u);

    wire::Chain chain{wire::Uuid{tournament_.value.bytes}};
    for (const KeptFact& fact : record()) {
        auto read = wire::read_event_entry(*fact.bytes);
        ASSERT_TRUE(std::holds_alternative<wire::ReadEventEntry>(read));
        const auto& entry = std::get<wire::ReadEventEntry>(read);
        EXPECT_FALSE(chain.append(entry.header(), entry.hash()));
        EXPECT_EQ(entry.hash(), fact.hash);
        EXPECT_EQ(entry.header().device_id.bytes(), device_.value.bytes);
        EXPECT_EQ(entry.author(), "desk 1");
        EXPECT_EQ(entry.beside().has_value(), fact.beside.has_value());
        if (!fact.beside) continue;
        v1::BesideWords words;
        words.set_salt(fact.beside->salt);
        words.set_text(fact.beside->text);
        EXPECT_EQ(wire::beside_hash(words), *entry.beside());
        EXPECT_EQ(fact.beside->text, "The floor of court 1 is wet.");
    }
    EXPECT_EQ(chain.head().seq, 2u);
}

TEST_F(RecordKeeperTest, AnActThatStandsOrFallsKeepsNothingWhenPartOfItHasNoEffect) {
    Act half = said(0, {event::CourtOpened{}, event::TeamEntered{"Mill Lane", "U16", ""}});
    half.whole = true;
    const Status refused = keeper_->act(half).status();
    EXPECT_EQ(refused.code, StatusCode::invalid);
    EXPECT_NE(refused.message.find("division U16"), std::string::npos) << refused.message;
    EXPECT_FALSE(refused.cure.empty());
    EXPECT_TRUE(record().empty());
    half.whole = false;
    EXPECT_EQ(value_or_throw(keeper_->act(half)).findings.size(), 1u);
    EXPECT_EQ(record().size(), 2u);
}

TEST_F(RecordKeeperTest, TheIdOfEachFactIsKnown) {
    const Act opened = said(0, {event::CourtOpened{}, event::NoteWritten{}});
    (void)value_or_throw(keeper_->act(opened));
    const auto other = another();
    ASSERT_TRUE(other->catch_up().ok());
    for (const KnownRecord& known : {keeper_->known(), other->known()}) {
        ASSERT_EQ(known.ids->size(), 2u);
        for (std::size_t i = 0; i < 2; ++i) EXPECT_EQ((*known.ids)[i], opened.facts[i].id);
    }
}

TEST_F(RecordKeeperTest, ARetryIsAnsweredAsTheFirstTime) {
    const Act once = said(0, {event::CourtOpened{}});
    EXPECT_EQ(value_or_throw(keeper_->act(once)).fate, Fate::kept);
    (void)act(1, {event::NoteWritten{}});
    const Outcome again = value_or_throw(another()->act(once));
    EXPECT_EQ(again.fate, Fate::had);
    EXPECT_EQ(again.first, 1u);
    EXPECT_EQ(again.last, 1u);
    EXPECT_EQ(record().size(), 2u);
}

TEST_F(RecordKeeperTest, AnIdThatStandsForAnotherFactIsRefused) {
    Act once = said(0, {event::CourtOpened{}});
    (void)value_or_throw(keeper_->act(once));
    once.facts[0].said.fact = event::NoteWritten{};
    EXPECT_EQ(keeper_->act(once).status().code, StatusCode::conflict);
    EXPECT_EQ(record().size(), 1u);
}

TEST_F(RecordKeeperTest, WhatCameBetweenDoesNotMatterWhenTheActDoesTheSame) {
    (void)act(0, {event::CourtOpened{}});
    event::CourtOpened second;
    second.court = 2;
    const Outcome outcome = act(0, {second});
    EXPECT_EQ(outcome.fate, Fate::kept);
    EXPECT_EQ(outcome.first, 2u);
    EXPECT_EQ(keeper_->state()->courts.size(), 2u);
}

TEST_F(RecordKeeperTest, NobodyWritesOverWhatHeHasNotSeen) {
    open_pool();
    const FactNumber seen = keeper_->state()->last();
    event::CourtOpened court;
    court.name = "Quay hall";
    EXPECT_EQ(act(seen, {court}).fate, Fate::kept);
    court.name = "Harbour hall";
    EXPECT_EQ(act(seen, {court}).fate, Fate::overtaken);
    EXPECT_EQ(keeper_->state()->courts.at(1).name, "Quay hall");
    event::MatchPlaced placed;
    placed.match = first_match_;
    placed.at = event::LocalTime{30'000'000};
    // Decided when there was no court 1: then it did nothing, now it would.
    EXPECT_EQ(act(seen, {placed}).fate, Fate::overtaken);
    EXPECT_EQ(act(seen + 1, {placed}).fate, Fate::kept);
    event::MatchMoved moved;
    moved.match = first_match_;
    moved.at = event::LocalTime{30'000'060};
    EXPECT_EQ(act(seen + 1, {moved}).fate, Fate::overtaken);
    // Two notes about one match stand beside each other.
    EXPECT_EQ(act(seen + 2, {event::NoteWritten{first_match_, ""}}).fate, Fate::kept);
    EXPECT_EQ(act(seen + 2, {event::NoteWritten{first_match_, ""}}).fate, Fate::kept);
}

TEST_F(RecordKeeperTest, OfTwoResultsForOneMatchTheSecondPersonIsAskedAgain) {
    open_pool();
    const FactNumber seen = keeper_->state()->last();
    EXPECT_EQ(act(seen, {result(first_match_, 20)}).fate, Fate::kept);
    const Outcome second = act(seen, {result(first_match_, 15)});
    EXPECT_EQ(second.fate, Fate::overtaken);
    EXPECT_EQ(second.first, seen + 1);
    EXPECT_EQ(second.last, seen + 1);
    EXPECT_EQ(record().size(), seen + 1);
    ASSERT_FALSE(second.findings.empty());
    EXPECT_EQ(second.findings[0].problem, event::Problem::result_there);
    // Having seen it, the person may say it all the same: a fact is never refused.
    EXPECT_EQ(act(seen + 1, {result(first_match_, 15)}).fate, Fate::kept);
    EXPECT_FALSE(keeper_->state()->findings.empty());
}

/// Holds the next append until it is let go.
class HeldFactStore : public MemoryFactStore {
  public:
    using MemoryFactStore::MemoryFactStore;
    Result<FactAppend> append(TournamentId tournament, const FactHead& seen,
                              std::span<const KeptFact> facts,
                              std::span<const RecordEnd> ends) override {
        came.set_value();
        let_go.get_future().wait();
        return MemoryFactStore::append(tournament, seen, facts, ends);
    }
    std::promise<void> came;
    std::promise<void> let_go;
};

TEST_F(RecordKeeperTest, WhoOnlyLooksDoesNotWaitForWhatIsBeingKept) {
    HeldFactStore store{feed_};
    RecordKeeper keeper{tournament_, store};
    event::CourtOpened court;
    court.court = 7;
    auto acting = std::async(std::launch::async, [&] { return keeper.act(said(0, {court})); });
    store.came.get_future().wait();
    auto looking = std::async(std::launch::async, [&] {
        return std::tuple{keeper.known().head.number, keeper.state()->last(),
                          keeper.words()->size()};
    });
    const bool looked = looking.wait_for(testkit::patience) == std::future_status::ready;
    store.let_go.set_value();
    EXPECT_TRUE(looked);
    EXPECT_EQ(looking.get(), (std::tuple<FactNumber, FactNumber, std::size_t>{0, 0, 0}));
    ASSERT_TRUE(acting.get().ok());
    EXPECT_EQ(keeper.state()->last(), 1U);
}

TEST_F(RecordKeeperTest, APreviewKeepsNothingAndTellsTheSame) {
    open_pool();
    const Act confirmed = said(keeper_->state()->last(), {result(first_match_, 20)});
    const std::size_t before = record().size();
    const Outcome preview = value_or_throw(keeper_->preview(confirmed));
    EXPECT_EQ(record().size(), before);
    EXPECT_FALSE(preview.effects.none());
    const Outcome kept = value_or_throw(keeper_->act(confirmed));
    EXPECT_EQ(kept.effects, preview.effects);
    EXPECT_EQ(kept.first, preview.first);
}

TEST_F(RecordKeeperTest, AnActFromAheadOfTheRecordIsRefused) {
    const auto refused = keeper_->act(said(7, {event::CourtOpened{}}));
    EXPECT_EQ(refused.status().code, StatusCode::invalid);
    EXPECT_NE(refused.status().message.find("fact 7"), std::string::npos);
}

TEST_F(RecordKeeperTest, AFactBeyondItsBoundsKeepsNothingOfItsAct) {
    Act act = said(0, {event::CourtOpened{}, event::NoteWritten{}});
    act.author = std::string(65, 'x');
    const auto refused = keeper_->act(act);
    EXPECT_EQ(refused.status().code, StatusCode::invalid);
    EXPECT_FALSE(refused.status().cure.empty());
    EXPECT_TRUE(record().empty());
}

TEST_F(RecordKeeperTest, ARetryOfPartOfAnActIsRefused) {
    const Act once = said(0, {event::CourtOpened{}});
    (void)value_or_throw(keeper_->act(once));
    Act more = said(1, {event::NoteWritten{}});
    more.facts.insert(more.facts.begin(), once.facts.front());
    EXPECT_EQ(keeper_->act(more).status().code, StatusCode::conflict);
    EXPECT_EQ(record().size(), 1u);
}

TEST_F(RecordKeeperTest, WordsThatNobodyCouldReadAreRefused) {
    Act note = said(0, {event::NoteWritten{}});
    for (const std::string& words :
         {std::string(501, 'x'), std::string{"a bell\a"}, std::string{"\xff"}}) {
        note.facts[0].said.words = words;
        EXPECT_EQ(keeper_->act(note).status().code, StatusCode::invalid) << words;
    }
    EXPECT_TRUE(record().empty());
    note.facts[0].said.words = std::string(500, 'x');
    EXPECT_EQ(value_or_throw(keeper_->act(note)).fate, Fate::kept);
}

TEST_F(RecordKeeperTest, AFactOfANewerProgramIsSaidAndNothingAfterItCounts) {
    (void)act(0, {event::CourtOpened{}});
    KeptFact strange;
    strange.id = FactId{new_uuid()};
    strange.number = 2;
    strange.bytes = std::make_shared<const std::string>("no entry at all");
    (void)value_or_throw(
        store_.append(tournament_, value_or_throw(store_.head(tournament_)), std::vector{strange}));
    EXPECT_EQ(keeper_->catch_up().code, StatusCode::schema_newer);
    EXPECT_EQ(keeper_->act(said(1, {event::NoteWritten{}})).status().code,
              StatusCode::schema_newer);
    EXPECT_EQ(keeper_->state()->last(), 1u);
}

/// Random acts on a small event, so that they often touch the same thing.
Fact random_fact(std::mt19937& random, const std::vector<std::string>& matches) {
    const auto any = [&](std::uint32_t below) { return random() % below; };
    const std::string& match = matches[any(static_cast<std::uint32_t>(matches.size()))];
    switch (any(5)) {
        case 0: {
            event::CourtOpened court;
            court.court = static_cast<std::uint16_t>(1 + any(4));
            court.name = "Court " + std::to_string(any(3));
            return court;
        }
        case 1: {
            event::ResultConfirmed result;
            result.match = match;
            result.from = event::ResultFrom::paper;
            result.sets.assign(3, {25, static_cast<std::uint16_t>(10 + any(3))});
            return result;
        }
        case 2:
            return event::ResultReopened{match};
        case 3: {
            event::MatchPlaced placed;
            placed.match = match;
            placed.court = static_cast<std::uint16_t>(1 + any(4));
            placed.at = event::LocalTime{30'000'000 + static_cast<std::int32_t>(any(3)) * 60};
            return placed;
        }
        default:
            return event::NoteWritten{match, ""};
    }
}

// Each of a pair was decided on the same screen and goes to another server at the same moment.
TEST_F(RecordKeeperTest, OfAThousandPairsOfActsAtOnceBothEndRight) {
    std::vector<std::string> matches;
    std::unique_ptr<RecordKeeper> other;
    std::mt19937 random{2611};
    std::size_t overtaken = 0;
    for (int pair = 0; pair < 1000; ++pair) {
        // An event of an ordinary length; the longer one is, the longer each act takes.
        if (pair % 50 == 0) {
            tournament_ =
                value_or_throw(feed_.create_tournament(TournamentId{new_uuid()}, "Harbour Cup")).id;
            keeper_ = another();
            open_pool();
            other = another();
            matches.clear();
            const auto opened = keeper_->state();
            for (const auto& [name, ref] : opened->match_names) matches.push_back(name);
        }
        ASSERT_TRUE(keeper_->catch_up().ok());
        ASSERT_TRUE(other->catch_up().ok());
        const FactNumber seen = keeper_->state()->last();
        const std::array<Act, 2> acts{said(seen, {random_fact(random, matches)}),
                                      said(seen, {random_fact(random, matches)})};
        std::array<std::optional<Outcome>, 2> outcomes;
        std::thread one{[&] { outcomes[0] = value_or_throw(keeper_->act(acts[0])); }};
        std::thread two{[&] { outcomes[1] = value_or_throw(other->act(acts[1])); }};
        one.join();
        two.join();
        std::size_t kept = 0;
        for (std::size_t i = 0; i < 2; ++i) {
            if (outcomes[i]->fate == Fate::kept) {
                ++kept;
                continue;
            }
            ASSERT_EQ(outcomes[i]->fate, Fate::overtaken);
            ++overtaken;
            // The person looks at what came, and says it again.
            Act again = acts[i];
            again.seen = outcomes[i]->last;
            ASSERT_EQ(value_or_throw(keeper_->act(again)).fate, Fate::kept);
        }
        ASSERT_GE(kept, 1u);
        ASSERT_TRUE(keeper_->catch_up().ok());
        ASSERT_TRUE(other->catch_up().ok());
        ASSERT_EQ(keeper_->state()->last(), seen + 2);
        ASSERT_EQ(other->state()->last(), seen + 2);
    }
    EXPECT_EQ(*keeper_->state(), *other->state());
    EXPECT_EQ(*keeper_->state(), event::fold(keeper_->state()->facts));
    // Some did change what the other had seen, most did not.
    EXPECT_GT(overtaken, 20u);
    EXPECT_LT(overtaken, 600u);
}

}  // namespace
}  // namespace courthand::server::tournament
