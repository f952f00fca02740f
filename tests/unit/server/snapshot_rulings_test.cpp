// A watch that begins with a snapshot brings the rulings that the table has still to record.
#include <gtest/gtest.h>

#include "courthand/rules/judge.h"
#include "courthand/v1/sync.pb.h"
#include "middle.h"
#include "wire/fact_convert.h"
#include "wire/fold_record.h"

namespace courthand::server::service {
namespace {

class SnapshotRulings : public MiddleTest {
  protected:
    void open(TestRecord& record) {
        record.add(Fact{MatchOpened{find_profile("international-2025")->rules.format}});
        push(record, 1, record.size());
    }
    /// An interval where there is none is a fault that stands until it is ruled.
    Verdict raise_fault(TestRecord& record) {
        const EntryNumber number = record.add(Fact{Interval{}});
        push(record, number, number);
        const Profile* const profile = find_profile("international-2025");
        const auto folded = wire::fold_record(record.match(), profile->rules, record.bytes());
        const VerdictList all = standing(profile->rules, folded.state);
        EXPECT_EQ(all.size(), 1u);
        EXPECT_EQ(all[0].entry, number);
        return all[0];
    }
    /// The table records what the official ruled, and strikes it again.
    void record_and_strike(TestRecord& record, const Verdict& verdict) {
        const EntryNumber ruling =
            record.add(Fact{Ruling{Ruling::Decision::overrule, verdict.reason, verdict.team}});
        const EntryNumber strike = record.correct(Record{Strike{ruling}});
        push(record, ruling, strike);
    }
    void rule(const TestRecord& record, const Verdict& verdict, const std::string& alert) {
        v1::RulingNotice ruling;
        ruling.set_alert_id(alert);
        ruling.set_match_id(record.match().to_bytes());
        ruling.set_reason(std::string{describe(verdict.reason).word});
        ruling.set_team(wire::to_proto(verdict.team));
        ruling.set_seq(names_entry_ ? verdict.entry : 0);
        FeedNotice notice;
        notice.kind = FeedItem::Kind::ruling;
        notice.match = id_of(record);
        notice.id = EntryId{new_uuid()};
        notice.bytes = ruling.SerializeAsString();
        (void)value_or_throw(store_.publish(tournament_, notice));
    }
    [[nodiscard]] static std::vector<std::string> alerts(
        const std::vector<v1::WatchResponse>& sent) {
        std::vector<std::string> all;
        for (const auto& response : sent)
            if (response.has_ruling()) all.push_back(response.ruling().alert_id());
        return all;
    }
    void move_to(std::uint32_t court, const TestRecord& record) {
        MatchPlan plan = value_or_throw(store_.match({tournament_, id_of(record)})).plan;
        plan.court = court;
        (void)value_or_throw(store_.change_match(plan));
    }
    [[nodiscard]] static std::vector<std::string> only(const char* alert) { return {alert}; }
    /// What a table of the court is sent.
    [[nodiscard]] std::vector<std::string> sent_to_court() {
        Middle middle{store_, tournament_};
        WatchSession court = middle.watch(WatchedCourt{4}, {}, device_);
        return alerts(drain(court));
    }

    bool names_entry_ = true;  ///< a notice says which entry raised the fault
};

TEST_F(SnapshotRulings, AreThoseOnVerdictsThatStand) {
    TestRecord record = new_record(4);
    open(record);
    const Verdict settled = raise_fault(record);
    rule(record, settled, "settled");
    const EntryNumber number =
        record.add(Fact{Ruling{Ruling::Decision::overrule, settled.reason, settled.team}});
    push(record, number, number);
    rule(record, raise_fault(record), "open");
    Middle middle{store_, tournament_};
    WatchSession court = middle.watch(WatchedCourt{4}, {}, device_);
    const auto sent = drain(court);
    EXPECT_EQ(alerts(sent), only("open"));
    EXPECT_EQ(entries(sent), record.bytes());
    ASSERT_FALSE(sent.empty());
    EXPECT_TRUE(sent.back().snapshot().snapshot_complete()) << "the rulings belong to it";
    EXPECT_FALSE(sent.back().cursor().empty());
    for (std::size_t i = 0; i + 1 < sent.size(); ++i) EXPECT_TRUE(sent[i].cursor().empty()) << i;
    WatchSession match = middle.watch(id_of(record));
    EXPECT_EQ(alerts(drain(match)), only("open"));
}

TEST_F(SnapshotRulings, ComeAlsoWithACursorOfAnotherFeed) {
    TestRecord record = new_record(4);
    open(record);
    rule(record, raise_fault(record), "open");
    Middle middle{store_, tournament_};
    WatchSession session =
        middle.watch(WatchedCourt{4}, to_bytes(WatchCursor{new_uuid(), 3}), device_);
    const auto sent = drain(session);
    ASSERT_FALSE(sent.empty());
    EXPECT_TRUE(sent.front().has_resync());
    EXPECT_EQ(alerts(sent), only("open"));
}

TEST_F(SnapshotRulings, AreAlsoThoseOfAMatchThatTheTableWritesElsewhere) {
    TestRecord record = new_record(4);
    open(record);
    rule(record, raise_fault(record), "left");
    move_to(9, record);
    Middle middle{store_, tournament_};
    WatchSession writes = middle.watch(WatchedCourt{4}, {}, device_);
    WatchSession looks_on = middle.watch(WatchedCourt{4}, {}, DeviceId{new_uuid()});
    EXPECT_EQ(alerts(drain(writes)), only("left"));
    EXPECT_TRUE(alerts(drain(looks_on)).empty());
}

TEST_F(SnapshotRulings, ComeWithAMatchThatIsGivenToTheCourt) {
    TestRecord record = new_record(4);
    open(record);
    rule(record, raise_fault(record), "open");
    Middle middle{store_, tournament_};
    WatchSession session = middle.watch(WatchedCourt{9}, {}, DeviceId{new_uuid()});
    EXPECT_TRUE(alerts(drain(session)).empty());
    move_to(9, record);
    middle.follow();
    const auto sent = drain(session);
    EXPECT_EQ(alerts(sent), only("open"));
    EXPECT_EQ(entries(sent), record.bytes());
}

// Somebody at the table took it back: another device recorded it again without a word.
TEST_F(SnapshotRulings, AreNotThoseThatTheRecordHadAndStruck) {
    TestRecord record = new_record(4);
    open(record);
    const Verdict fault = raise_fault(record);
    rule(record, fault, "struck");
    record_and_strike(record, fault);
    EXPECT_TRUE(sent_to_court().empty());
    // The official rules once more.
    rule(record, fault, "again");
    EXPECT_EQ(sent_to_court(), only("again"));
}

TEST_F(SnapshotRulings, OnOneFaultAreTheLastWord) {
    TestRecord record = new_record(4);
    open(record);
    const Verdict fault = raise_fault(record);
    rule(record, fault, "first");
    rule(record, fault, "last");
    EXPECT_EQ(sent_to_court(), only("last"));
}

// The ruling on a fault of the first set fitted one of the third.
TEST_F(SnapshotRulings, ThatNameNoEntryFitNoLaterFaultOfTheirKind) {
    TestRecord record = new_record(4);
    open(record);
    const Verdict fault = raise_fault(record);
    names_entry_ = false;
    rule(record, fault, "early");
    EXPECT_EQ(sent_to_court(), only("early"));
    const EntryNumber number =
        record.add(Fact{Ruling{Ruling::Decision::overrule, fault.reason, fault.team}});
    push(record, number, number);
    (void)raise_fault(record);
    EXPECT_TRUE(sent_to_court().empty());
}

}  // namespace
}  // namespace courthand::server::service
