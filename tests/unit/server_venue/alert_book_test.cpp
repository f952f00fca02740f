// The life of alerts. Time is a number here, on both clocks: none is read.
#include <gtest/gtest.h>

#include "server/alerts/alert_book.h"
#include "server/alerts/alert_store.h"

namespace courthand::server::alerts {
namespace {

using std::chrono::minutes;
using std::chrono::seconds;
using What = LifeEntry::What;

Now at(int second) {
    const auto since = std::chrono::hours{1000} + seconds{second};
    return {Instant{} + since, Steady{} + since};
}

/// The same moment after the wall clock was set back by an hour.
Now set_back(int second) {
    Now now = at(second);
    now.wall -= std::chrono::hours{1};
    return now;
}

Condition condition(Kind kind, std::string id = "m/1") {
    Condition made;
    made.id = std::move(id);
    made.kind = kind;
    made.code = row_of(kind).word;
    made.severity = row_of(kind).severity;
    made.court = 3;
    return made;
}

const Condition box = condition(Kind::libero_box_unconfirmed);
const Condition fault = condition(Kind::illegal_replacement);

std::vector<What> steps(const std::vector<LifeEntry>& entries) {
    std::vector<What> out;
    for (const LifeEntry& entry : entries) out.push_back(entry.what);
    return out;
}

/// Acts and applies, as the keeper does once the entry is kept.
void act(AlertBook& book, const Acted& acted) {
    ASSERT_TRUE(acted.ok()) << acted.status().message;
    const auto& entry = *acted;
    book.apply(entry, {entry.at, Steady{} + (entry.at - Instant{})});
}

TEST(AlertBook, AConditionMustHoldBeforeItIsRaised) {
    AlertBook book;
    EXPECT_TRUE(book.observe("m", {box}, at(0)).empty());
    EXPECT_TRUE(book.tick(at(4)).empty());
    EXPECT_EQ(steps(book.tick(at(5))), std::vector{What::opened});
    EXPECT_TRUE(book.tick(at(6)).empty());
}

TEST(AlertBook, AWriterThatIsGrantedTheMatchEndsItsAlertInTrueWords) {
    AlertBook book;
    ASSERT_EQ(steps(book.observe("m", {condition(Kind::writer_recovered)}, at(0))),
              std::vector{What::opened});
    (void)book.observe("m", {}, at(10));
    const auto ended = book.tick(at(600));
    ASSERT_EQ(steps(ended), std::vector{What::cleared});
    EXPECT_EQ(ended[0].note, "the match was given to a table, or signed");
}

TEST(AlertBook, ASlipOfTheFingerRaisesNothing) {
    AlertBook book;
    (void)book.observe("m", {box}, at(0));
    (void)book.observe("m", {}, at(3));
    EXPECT_TRUE(book.tick(at(60)).empty());
    EXPECT_TRUE(book.alerts().empty());
}

TEST(AlertBook, AConditionMustBeGoneBeforeItClears) {
    AlertBook book;
    (void)book.observe("m", {box}, at(0));
    (void)book.tick(at(5));
    EXPECT_TRUE(book.observe("m", {}, at(20)).empty());
    EXPECT_TRUE(book.tick(at(29)).empty());
    EXPECT_EQ(steps(book.tick(at(30))), std::vector{What::cleared});
    EXPECT_FALSE(book.find("m/1")->live());
}

TEST(AlertBook, AClearedConditionMayComeBack) {
    AlertBook book;
    (void)book.observe("m", {box}, at(0));
    (void)book.tick(at(5));
    (void)book.observe("m", {}, at(20));
    (void)book.tick(at(30));
    (void)book.observe("m", {box}, at(100));
    EXPECT_EQ(steps(book.tick(at(105))), std::vector{What::opened});
    EXPECT_TRUE(book.find("m/1")->live());
    EXPECT_EQ(book.find("m/1")->since, at(105).wall);
}

TEST(AlertBook, AFaultIsRaisedAtOnceAndStaysUntilItIsRuled) {
    AlertBook book;
    EXPECT_EQ(steps(book.observe("m", {fault}, at(0))), std::vector{What::opened});
    EXPECT_TRUE(book.tick(at(4000)).empty());
    act(book, book.rule("m/1", true, "seen on court", "head official", at(4001)));
    EXPECT_EQ(book.find("m/1")->state, State::ruled);
    EXPECT_EQ(book.find("m/1")->accepted, true);
    EXPECT_TRUE(book.observe("m", {fault}, at(4002)).empty());
    EXPECT_TRUE(book.tick(at(9000)).empty());
}

TEST(AlertBook, ARulingInTheRecordEndsTheAlert) {
    AlertBook book;
    (void)book.observe("m", {fault}, at(0));
    Condition ruled = fault;
    ruled.outcome = Outcome::overruled;
    const auto entries = book.observe("m", {ruled}, at(9));
    EXPECT_EQ(steps(entries), std::vector{What::ruled});
    EXPECT_EQ(entries.front().by, "table");
    EXPECT_EQ(book.find("m/1")->accepted, false);
}

TEST(AlertBook, AFaultRuledWithinOneBatchIsStillOnRecord) {
    AlertBook book;
    Condition ruled = fault;
    ruled.outcome = Outcome::accepted;
    EXPECT_EQ(steps(book.observe("m", {ruled}, at(0))), (std::vector{What::opened, What::ruled}));
}

TEST(AlertBook, ACorrectedRecordClearsAFaultWithTheReason) {
    AlertBook book;
    (void)book.observe("m", {fault}, at(0));
    (void)book.observe("m", {}, at(1));
    const auto entries = book.tick(at(11));
    EXPECT_EQ(steps(entries), std::vector{What::cleared});
    EXPECT_EQ(entries.front().note, "the record was corrected");
}

TEST(AlertBook, WhatIsOnlyToBeSeenEndsWhenItWasSeen) {
    AlertBook book;
    const Condition made = condition(Kind::redesignation_made);
    (void)book.observe("m", {made}, at(0));
    (void)book.tick(at(5));
    act(book, book.acknowledge("m/1", "head official", at(9)));
    EXPECT_EQ(book.find("m/1")->state, State::cleared);
    EXPECT_TRUE(book.observe("m", {made}, at(10)).empty());
    EXPECT_TRUE(book.tick(at(1000)).empty());
}

TEST(AlertBook, TheFirstClaimHolds) {
    AlertBook book;
    (void)book.observe("m", {fault}, at(0));
    act(book, book.claim("m/1", "head official", at(1)));
    const Acted second = book.claim("m/1", "deputy", at(2));
    ASSERT_FALSE(second.ok());
    EXPECT_EQ(second.status().message, "head official is on the way");
    EXPECT_EQ(book.find("m/1")->claimed_by, "head official");
}

TEST(AlertBook, ACriticalAlertCannotBeShelved) {
    AlertBook book;
    (void)book.observe("m", {fault}, at(0));
    const Acted shelved = book.shelve("m/1", minutes{5}, "later", "head official", at(1));
    ASSERT_FALSE(shelved.ok());
    EXPECT_EQ(shelved.status().code, StatusCode::not_now);
}

TEST(AlertBook, AShelvedAlertReturnsByItself) {
    AlertBook book;
    (void)book.observe("m", {box}, at(0));
    (void)book.tick(at(5));
    act(book, book.shelve("m/1", minutes{5}, "referee asks later", "head official", at(10)));
    EXPECT_EQ(book.find("m/1")->state, State::shelved);
    EXPECT_TRUE(book.tick(at(309)).empty());
    EXPECT_EQ(steps(book.tick(at(310))), std::vector{What::returned});
    EXPECT_EQ(book.find("m/1")->state, State::open);
}

TEST(AlertBook, ShelvingNeedsAReasonAndATime) {
    AlertBook book;
    (void)book.observe("m", {box}, at(0));
    (void)book.tick(at(5));
    for (const Acted& acted : {book.shelve("m/1", minutes{5}, "", "head official", at(6)),
                               book.shelve("m/1", minutes{0}, "why", "head official", at(6)),
                               book.shelve("m/1", minutes{61}, "why", "head official", at(6)),
                               book.shelve("m/1", minutes{5}, "why", "", at(6))}) {
        ASSERT_FALSE(acted.ok());
        EXPECT_EQ(acted.status().code, StatusCode::invalid);
        EXPECT_FALSE(acted.status().cure.empty());
    }
}

TEST(AlertBook, NothingCanBeDoneToAnAlertThatIsNotThereOrHasEnded) {
    AlertBook book;
    EXPECT_EQ(book.claim("m/9", "head", at(0)).status().code, StatusCode::not_found);
    (void)book.observe("m", {fault}, at(0));
    act(book, book.rule("m/1", false, "", "head", at(1)));
    EXPECT_EQ(book.claim("m/1", "head", at(2)).status().code, StatusCode::not_now);
}

TEST(AlertBook, ScopesDoNotDisturbEachOther) {
    AlertBook book;
    (void)book.observe("m", {fault}, at(0));
    (void)book.observe("n", {condition(Kind::illegal_replacement, "n/1")}, at(1));
    (void)book.observe("n", {}, at(2));
    (void)book.tick(at(30));
    EXPECT_TRUE(book.find("m/1")->live());
    EXPECT_FALSE(book.find("n/1")->live());
}

TEST(AlertBook, ARestartRaisesNothingTwice) {
    AlertBook before;
    const Condition seen = condition(Kind::redesignation_made, "m/seen");
    const Condition ruled = condition(Kind::wrong_server, "m/ruled");
    const std::vector<Condition> all{box, seen, ruled, condition(Kind::barred_player, "m/open")};
    std::vector<LifeEntry> kept;
    const auto keep = [&](const std::vector<LifeEntry>& entries) {
        kept.insert(kept.end(), entries.begin(), entries.end());
    };
    const auto keep_act = [&](const Acted& acted) {
        act(before, acted);
        kept.push_back(*acted);
    };
    keep(before.observe("m", all, at(0)));
    keep(before.tick(at(5)));
    keep_act(before.acknowledge("m/seen", "head", at(6)));
    keep_act(before.rule("m/ruled", true, "yes", "head", at(7)));
    keep_act(before.claim("m/open", "head", at(8)));

    MemoryAlertStore store;
    ASSERT_TRUE(store.append(kept, {}).ok());
    ASSERT_TRUE(store.append(kept, {}).ok()) << "kept twice is kept once";
    AlertBook after;
    const std::vector<AlertId> ids = after.unknown(all);
    ASSERT_EQ(ids.size(), all.size());
    const auto lives = store.load(ids);
    ASSERT_TRUE(lives.ok());
    ASSERT_EQ(lives->size(), kept.size());
    for (const LifeEntry& entry : *lives) after.apply(entry, at(99));

    EXPECT_TRUE(after.observe("m", all, at(100)).empty());
    EXPECT_TRUE(after.tick(at(200)).empty());
    EXPECT_EQ(after.find("m/1")->state, State::open);
    EXPECT_EQ(after.find("m/1")->since, at(5).wall);
    EXPECT_EQ(after.find("m/seen")->state, State::cleared);
    EXPECT_EQ(after.find("m/ruled")->state, State::ruled);
    EXPECT_EQ(after.find("m/open")->claimed_by, "head");
}

TEST(AlertBook, AChatteringAlertClearsLate) {
    AlertBook book;
    int now = 0;
    for (std::size_t i = 0; i < chatter_raises; ++i, now += 20) {
        (void)book.observe("m", {box}, at(now));
        ASSERT_EQ(steps(book.tick(at(now + 5))), std::vector{What::opened});
        (void)book.observe("m", {}, at(now + 6));
        if (i + 1 == chatter_raises) break;
        ASSERT_EQ(steps(book.tick(at(now + 16))), std::vector{What::cleared});
    }
    const int last = now;
    EXPECT_TRUE(book.tick(at(last + 16)).empty());
    EXPECT_TRUE(book.tick(at(last + 65)).empty());
    EXPECT_EQ(steps(book.tick(at(last + 66))), std::vector{What::cleared});
}

TEST(AlertBook, TheBoardSortsBySeverityThenAge) {
    Alert old_medium;
    old_medium.condition = condition(Kind::redesignation_made);
    old_medium.since = at(0).wall;
    Alert new_critical;
    new_critical.condition = fault;
    new_critical.since = at(50).wall;
    Alert newer_critical = new_critical;
    newer_critical.since = at(60).wall;
    Alert ended = new_critical;
    ended.state = State::ruled;
    EXPECT_TRUE(before_on_the_board(new_critical, old_medium));
    EXPECT_TRUE(before_on_the_board(new_critical, newer_critical));
    EXPECT_TRUE(before_on_the_board(old_medium, ended));
    EXPECT_FALSE(before_on_the_board(ended, new_critical));
}

TEST(AlertBook, AWallClockThatStepsBackFreezesNothing) {
    AlertBook book;
    (void)book.observe("m", {box}, at(0));
    EXPECT_EQ(steps(book.tick(set_back(5))), std::vector{What::opened}) << "raised after 5 s";
    (void)book.observe("m", {}, set_back(6));
    EXPECT_EQ(steps(book.tick(set_back(16))), std::vector{What::cleared}) << "clears after 10 s";

    const Condition shelved = condition(Kind::captain_missing, "m/2");
    (void)book.observe("n", {shelved}, at(20));
    (void)book.tick(at(25));
    const Acted act = book.shelve("m/2", minutes{5}, "later", "head official", at(30));
    ASSERT_TRUE(act.ok());
    book.apply(*act, at(30));
    EXPECT_TRUE(book.tick(set_back(329)).empty());
    EXPECT_EQ(steps(book.tick(set_back(330))), std::vector{What::returned});
}

TEST(AlertBook, TheChatterGuardCountsOnTheSteadyClock) {
    AlertBook book;
    int second = 0;
    // Each time the wall clock is set back by another hour: on it no two would be a minute apart.
    for (std::size_t i = 0; i < chatter_raises; ++i, second += 100) {
        Now now = at(second);
        now.wall -= std::chrono::hours{i};
        (void)book.observe("m", {box}, now);
        now.steady += seconds{5};
        ASSERT_EQ(steps(book.tick(now)), std::vector{What::opened});
        now.steady += seconds{1};
        (void)book.observe("m", {}, now);
        now.steady += seconds{10};
        ASSERT_EQ(steps(book.tick(now)), std::vector{What::cleared})
            << "100 s lie between them: that is no chatter";
    }
}

TEST(AlertBook, KeptTimesFromAfterAStepBackAreNotInTheFuture) {
    AlertBook before;
    const auto opened = before.observe("m", {fault}, at(4000));
    AlertBook after;
    for (const LifeEntry& entry : opened) after.apply(entry, set_back(4001));
    for (const Steady time : after.find("m/1")->raised) EXPECT_LE(time, set_back(4001).steady);
}

TEST(AlertBook, ControlCharactersAndBadTextAreRefusedWithThePlaceAndTheCure) {
    AlertBook book;
    (void)book.observe("m", {fault}, at(0));
    struct Case {
        std::string by;
        std::string note;
        std::string place;
    };
    for (const Case& each :
         {Case{"head\x07", "fine", "by"}, Case{"head", "bell \x07", "note"},
          Case{"head", "half a letter \xc3", "note"}, Case{"\xff", "fine", "by"}}) {
        const Acted acted = book.rule("m/1", true, each.note, each.by, at(1));
        ASSERT_FALSE(acted.ok()) << each.place;
        const auto& refusal = acted.status();
        EXPECT_EQ(refusal.code, StatusCode::invalid);
        EXPECT_EQ(refusal.message.find(each.place + ":"), 0U) << refusal.message;
        EXPECT_FALSE(refusal.cure.empty());
    }
    EXPECT_TRUE(book.find("m/1")->live());
}

TEST(AlertBook, AFaultThatWasCorrectedMeanwhileIsNotRuled) {
    AlertBook book;
    (void)book.observe("m", {fault}, at(0));
    (void)book.observe("m", {}, at(1));
    const Acted acted = book.rule("m/1", true, "", "head official", at(2));
    ASSERT_FALSE(acted.ok());
    EXPECT_EQ(acted.status().code, StatusCode::not_now);
    EXPECT_NE(acted.status().message.find("corrected"), std::string::npos);
}

TEST(AlertBook, AFullBookSaysSoAndEndedAlertsMakeRoom) {
    constexpr std::size_t most = AlertBook::most_cleared + 50;
    AlertBook book{most};
    std::vector<Condition> all;
    for (std::size_t i = 0; i <= most; ++i)
        all.push_back(condition(Kind::illegal_replacement, "m/" + std::to_string(1000 + i)));
    EXPECT_EQ(book.observe("m", all, at(0)).size(), most);
    EXPECT_TRUE(book.full());
    const Condition too_many = condition(Kind::too_many_alerts, "venue/too-many-alerts");
    EXPECT_EQ(steps(book.observe("room", {too_many}, at(0))), std::vector{What::opened})
        << "that there are too many is told beyond the bound";
    // A corrected record ends all but the last, which found no room before.
    (void)book.observe("m", {all.back()}, at(1));
    EXPECT_EQ(book.tick(at(11)).size(), most);
    book.trim();
    EXPECT_EQ(steps(book.tick(at(12))), std::vector{What::opened});
    EXPECT_FALSE(book.full());
    EXPECT_LE(book.alerts().size(), AlertBook::most_cleared + 2);
}

TEST(AlertBook, AlertingDoesNotGoSilentAfterManyEndedOnes) {
    AlertBook book;
    std::size_t raised = 0;
    for (std::size_t i = 0; i <= AlertBook::most_alerts; ++i) {
        const int second = static_cast<int>(i) * 20;
        raised +=
            book.observe("m", {condition(Kind::wrong_server, "m/" + std::to_string(i))}, at(second))
                .size();
        (void)book.observe("m", {}, at(second + 1));
        (void)book.tick(at(second + 11));
        book.trim();
    }
    EXPECT_EQ(raised, AlertBook::most_alerts + 1);
    EXPECT_LE(book.alerts().size(), AlertBook::most_cleared);
}

TEST(AlertBook, AFinishedMatchLeavesMemoryOnceItsAlertsHaveEnded) {
    AlertBook book;
    Condition of_match = fault;
    of_match.match.value.bytes[0] = 7;
    (void)book.observe("m", {of_match}, at(0));
    EXPECT_EQ(book.open_alerts(of_match.match), 1U);
    EXPECT_FALSE(book.close("m", of_match.match)) << "it still waits for a ruling";
    act(book, book.rule("m/1", true, "", "head official", at(1)));
    EXPECT_TRUE(book.close("m", of_match.match));
    EXPECT_TRUE(book.alerts().empty());
    EXPECT_EQ(book.unknown(std::vector{of_match}), std::vector<AlertId>{"m/1"})
        << "its life must be read back before it is told again";
}

TEST(AlertBook, OnlyWhatWaitsIsLookedAtByATick) {
    AlertBook book;
    std::vector<Condition> all;
    for (int i = 0; i < 1000; ++i)
        all.push_back(condition(Kind::illegal_replacement, "m/" + std::to_string(i)));
    (void)book.observe("m", all, at(0));
    (void)book.tick(at(1));
    EXPECT_EQ(book.waiting(), 0U) << "a latched fault waits for a person, not for time";
    EXPECT_EQ(book.of_court(3, {}).open, 1000U);
    EXPECT_EQ(book.of_court(3, {}).worst, Severity::critical);
}

TEST(AlertBook, AnAlertOfAnotherCourtIsCountedThere) {
    AlertBook book;
    Condition moved = fault;
    (void)book.observe("m", {moved}, at(0));
    (void)book.take_changed_courts();
    moved.court = 5;
    (void)book.observe("m", {moved}, at(1));
    EXPECT_EQ(book.of_court(3, {}).open, 0U);
    EXPECT_EQ(book.of_court(5, {}).open, 1U);
    EXPECT_EQ(book.take_changed_courts(), (std::set<std::uint32_t>{3, 5}));
}

TEST(AlertBook, AnAlertOfTheMatchBeforeDoesNotColourTheCardOfTheNextOne) {
    AlertBook book;
    Condition before = fault;
    before.match.value.bytes[0] = 7;
    Condition now = condition(Kind::wrong_server, "n/1");
    now.match.value.bytes[0] = 8;
    const Condition of_the_court = condition(Kind::barred_player, "court/3");
    (void)book.observe("m", {before}, at(0));
    EXPECT_EQ(book.of_court(3, before.match), (CourtAlerts{1, before.severity, 0}));
    EXPECT_EQ(book.of_court(3, now.match), (CourtAlerts{0, std::nullopt, 1}))
        << "the next match begins without a mark";
    EXPECT_EQ(book.of_court(3, {}), (CourtAlerts{0, std::nullopt, 1}));
    (void)book.observe("n", {now}, at(0));
    (void)book.observe("room", {of_the_court}, at(0));
    EXPECT_EQ(book.of_court(3, now.match).open, 2U) << "its own, and that of the court itself";
    EXPECT_EQ(book.of_court(3, now.match).of_others, 1U);
}

/// Alerts and conditions that are looked at when something changes at one of so many matches, each
/// on a court of its own with ten alerts: a fault leaves its record, its card is made anew, and it
/// is over.
std::uint64_t cost_of_one_match_among(std::uint32_t matches) {
    constexpr std::uint32_t alerts_of_a_match = 10;
    const auto id_of = [](std::uint32_t match) {
        MatchId id;
        id.value.bytes[0] = static_cast<std::uint8_t>(1 + match / 256);
        id.value.bytes[1] = static_cast<std::uint8_t>(match % 256);
        return id;
    };
    const auto faults_of = [&](std::uint32_t match) {
        std::vector<Condition> faults;
        for (std::uint32_t i = 0; i < alerts_of_a_match; ++i) {
            Condition& made = faults.emplace_back(condition(
                Kind::illegal_replacement, std::to_string(1000 + match) + "/" + std::to_string(i)));
            made.match = id_of(match);
            made.court = 1 + match;
        }
        return faults;
    };
    AlertBook book;
    for (std::uint32_t match = 0; match < matches; ++match)
        (void)book.observe(std::to_string(match), faults_of(match), at(0));
    EXPECT_EQ(book.size(), std::size_t{matches} * alerts_of_a_match);
    const std::uint32_t one = matches / 2;
    const std::uint64_t before = book.looks();
    auto faults = faults_of(one);
    faults.pop_back();
    (void)book.unknown(faults);
    (void)book.observe(std::to_string(one), std::move(faults), at(1));
    (void)book.tick(at(60));
    EXPECT_EQ(book.open_alerts(id_of(one)), alerts_of_a_match - 1);
    EXPECT_EQ(book.of_court(1 + one, id_of(one)).open, alerts_of_a_match - 1);
    EXPECT_FALSE(book.close(std::to_string(one), id_of(one)));
    book.trim();
    return book.looks() - before;
}

TEST(AlertBook, AChangeOfOneMatchCostsNoMoreAmongFiveHundredMatches) {
    const std::uint64_t alone = cost_of_one_match_among(1);
    EXPECT_GT(alone, 0U);
    EXPECT_EQ(cost_of_one_match_among(500), alone);
}

TEST(MemoryAlertStore, AnotherServersEntryIsAConflictAndNothingIsKept) {
    MemoryAlertStore store;
    AlertBook one;
    AlertBook other;
    ASSERT_TRUE(store.append(one.observe("m", {fault}, at(0)), {}).ok());
    const Condition second = condition(Kind::wrong_server, "m/2");
    const auto late = other.observe("m", {fault, second}, at(1));
    ASSERT_EQ(late.size(), 2U);
    EXPECT_EQ(store.append(late, {}).code, StatusCode::conflict);
    EXPECT_EQ(store.lives().size(), 1U);
}

TEST(Catalogue, EveryKindHasItsWordAndLatchedOnesWaitForNothing) {
    for (const Row& row : all_rows()) {
        EXPECT_EQ(&row_of(row.kind), &row) << row.word;
        EXPECT_EQ(kind_of(row.word), row.kind) << row.word;
        EXPECT_GT(row.act_within.count(), 0) << row.word;
        EXPECT_LE(row.severity_after_rally, row.severity)
            << row.word << ": a rally played with it makes it no milder";
        if (row.clears != Clears::by_ruling) continue;
        EXPECT_EQ(row.raise_after.count(), 0) << row.word;
    }
}

TEST(Catalogue, EveryReasonAboutTheLiberoOnCourtIsAnIllegalReplacement) {
    for (const Reason reason :
         {Reason::libero_no_completed_rally, Reason::libero_wrong_returner,
          Reason::libero_front_row, Reason::libero_two_on_court, Reason::libero_not_designated,
          Reason::libero_second_serving_position, Reason::libero_may_not_serve})
        EXPECT_EQ(kind_of(reason), Kind::illegal_replacement) << describe(reason).word;
}

}  // namespace
}  // namespace courthand::server::alerts
