// A whole match of five sets, played event by event by hand at a table seat, seen and ruled on at a
// head seat, through journal, sync, TLS, server and PostgreSQL. All of them, and the replay of the
// same match as a script, must agree on the state.
#include <gtest/gtest.h>

#include <QTest>
#include <array>
#include <cstdio>
#include <memory>
#include <string>

#include <fmt/format.h>

#include "courthand/rules/judge.h"
#include "head_eyes.h"
#include "match_course.h"
#include "table_hand.h"
#include "venue_day.h"

namespace courthand::client::test {
namespace {

constexpr int patience_ms = 15000;

struct Fault {
    Reason reason{};
    const char* title;  ///< as the head official reads it
};

/// What the course is meant to hold, in its order.
constexpr std::array faults{
    Fault{Reason::libero_no_completed_rally, "Libero: no completed rally"},
    Fault{Reason::wrong_server, "Wrong server"},
    Fault{Reason::libero_wrong_returner, "Libero: wrong returner"},
};
/// This one is ruled on at the head seat, the others at the table.
constexpr std::size_t ruled_by_the_head = 1;

std::string replayed_hash() {
    FILE* pipe = popen(COURTHAND_REPLAY " --hash '" COURTHAND_MATCH_SCRIPT "'", "r");
    if (pipe == nullptr) return "courthand-replay cannot be started";
    std::string text;
    for (int c = std::fgetc(pipe); c != EOF && c != '\n'; c = std::fgetc(pipe))
        text.push_back(static_cast<char>(c));
    return pclose(pipe) == 0 ? text : "courthand-replay failed: " + text;
}

std::string hex(std::uint64_t hash) {
    return fmt::format("{:016x}", hash);
}

std::string words_of(const MatchState& state) {
    const Six a = on_court(state.set.team.a);
    const Six b = on_court(state.set.team.b);
    std::string words = fmt::format("set {} stage {} {}:{} standing {} sixes", state.set.number,
                                    static_cast<int>(state.set.stage), state.set.score.a,
                                    state.set.score.b, state.standing_count);
    for (const Six& six : {a, b})
        for (const Jersey jersey : six) words += fmt::format(" {}", jersey.number());
    return words;
}

class WholeMatch : public testing::Test {
  protected:
    void SetUp() override {
        day_ = std::make_unique<VenueDay>(course_);
        table_ = std::make_unique<TableHand>(day_->table_window(), course_);
        head_ = std::make_unique<HeadEyes>(day_->head_window(), day_->head_seat(), VenueDay::court);
    }
    void TearDown() override {
        table_.reset();
        head_.reset();
        day_.reset();
    }
    [[nodiscard]] const MatchCourse::Step& step(std::size_t index) const {
        return course_.steps()[index];
    }
    [[nodiscard]] bool table_stands_at(const MatchState& state) {
        return QTest::qWaitFor(
            [&] { return state_hash(day_->match().state()) == state_hash(state); }, patience_ms);
    }
    void play();
    void see_fault(std::size_t ruling);
    void see_end_of_set(const MatchState& state);
    void expect_score_shown(const MatchState& state);
    void expect_shown_at_table(const MatchState& state);
    void expect_agreement();

    MatchCourse course_{COURTHAND_MATCH_SCRIPT};
    std::unique_ptr<VenueDay> day_;
    std::unique_ptr<TableHand> table_;
    std::unique_ptr<HeadEyes> head_;
    std::size_t faults_seen_ = 0;
};

void WholeMatch::play() {
    for (std::size_t at = 0; at < course_.steps().size();) {
        std::size_t done = 1;
        if (course_.at<Ruling>(at) != nullptr) {
            ASSERT_NO_FATAL_FAILURE(see_fault(at));
            // What the head official rules comes to the table by itself.
            if (faults_seen_ - 1 != ruled_by_the_head) done = table_->play(at);
        } else {
            done = table_->play(at);
        }
        ASSERT_GT(done, 0U) << "line " << step(at).line;
        at += done;
        const MatchState& wanted = step(at - 1).after;
        ASSERT_TRUE(table_stands_at(wanted))
            << "line " << step(at - 1).line << "\ntable:  " << words_of(day_->match().state())
            << "\nscript: " << words_of(wanted);
        if (course_.at<TimeOut>(at - 1) != nullptr) {
            EXPECT_TRUE(head_->sees(wanted));
        }
        if (course_.at<RallyWon>(at - 1) == nullptr) continue;
        if (wanted.set.stage == Stage::dead_ball) {
            ASSERT_NO_FATAL_FAILURE(expect_score_shown(wanted));
        } else {
            ASSERT_NO_FATAL_FAILURE(see_end_of_set(wanted));
        }
    }
}

void WholeMatch::see_fault(std::size_t ruling) {
    ASSERT_LT(faults_seen_, faults.size());
    const Fault& fault = faults[faults_seen_];
    ASSERT_EQ(course_.at<Ruling>(ruling)->reason, fault.reason);
    const QString picture = QStringLiteral("day-illegal%1").arg(++faults_seen_);
    const QString title = QString::fromLatin1(fault.title);
    EXPECT_NE(table_->screen().await(QStringLiteral("noticeText")), nullptr);
    EXPECT_FALSE(table_->screen().text(QStringLiteral("noticeRemedy")).isEmpty());
    EXPECT_TRUE(table_->screen().shows(QStringLiteral("ruling")));
    const QString alert = head_->sees_alert(title);
    ASSERT_FALSE(alert.isEmpty()) << "the head official does not see: " << fault.title;
    EXPECT_TRUE(head_->sees(step(ruling).before));
    table_->screen().picture(picture + QStringLiteral("-table"));
    head_->screen().picture(picture + QStringLiteral("-head"));
    if (faults_seen_ - 1 == ruled_by_the_head) {
        ASSERT_TRUE(head_->rules_that_it_stands(alert, picture + QStringLiteral("-head")));
        ASSERT_TRUE(table_stands_at(step(ruling).after)) << "the ruling does not come to the table";
        if (head_->screen().shows(QStringLiteral("going"))) {
            EXPECT_TRUE(head_->screen().click(QStringLiteral("courts")));
        }
    }
}

void WholeMatch::expect_score_shown(const MatchState& state) {
    const bool a_left = state.set.left == Team::A;
    const Score score = state.set.score;
    EXPECT_EQ(table_->screen().text(QStringLiteral("leftPoints")),
              QString::number(a_left ? score.a : score.b));
    EXPECT_EQ(table_->screen().text(QStringLiteral("rightPoints")),
              QString::number(a_left ? score.b : score.a));
    EXPECT_FALSE(table_->screen().shows(QStringLiteral("clock")))
        << "the clock of a time-out or interval ends with the service";
    for (int position = 0; position < static_cast<int>(players_on_court); ++position) {
        const auto* tile = table_->screen().find(QStringLiteral("left%1").arg(position));
        ASSERT_NE(tile, nullptr);
        EXPECT_NE(tile->property("footnote").toString(), QStringLiteral("✓ seen"))
            << "the check before the set is over";
    }
}

void WholeMatch::expect_shown_at_table(const MatchState& state) {
    ScreenHand& screen = table_->screen();
    if (state.set.stage == Stage::match_over) {
        const int won = state.team[state.winner].sets_won;
        const int lost = state.team[opponent(state.winner)].sets_won;
        EXPECT_EQ(screen.text(QStringLiteral("result")),
                  QStringLiteral("%1 wins %2 : %3")
                      .arg(QString::fromStdString(course_.script().names[state.winner]))
                      .arg(won)
                      .arg(lost));
    }
    EXPECT_EQ(day_->match().state().set.score, state.set.score);
    for (const Team team : {Team::A, Team::B}) {
        EXPECT_EQ(on_court(day_->match().state().set.team[team]), on_court(state.set.team[team]));
        EXPECT_EQ(day_->match().state().team[team].sets_won, state.team[team].sets_won);
    }
}

void WholeMatch::see_end_of_set(const MatchState& state) {
    expect_shown_at_table(state);
    EXPECT_TRUE(head_->sees(state))
        << "after set " << int{state.set.number} << " the head official reads: "
        << head_->texts(QStringLiteral("court3")).join(QStringLiteral(" | ")).toStdString();
    EXPECT_TRUE(
        QTest::qWaitFor([&] { return day_->hash_on_board() == state_hash(state); }, patience_ms))
        << "the server stands elsewhere after set " << int{state.set.number};
    const QString picture = QStringLiteral("day-set%1").arg(int{state.set.number});
    table_->screen().picture(picture + QStringLiteral("-table"));
    head_->screen().picture(picture + QStringLiteral("-head"));
}

void WholeMatch::expect_agreement() {
    ASSERT_TRUE(QTest::qWaitFor([&] { return day_->all_sent(); }, patience_ms));
    const auto journaled = day_->journaled();
    const auto stored = day_->stored();
    EXPECT_EQ(stored, journaled);
    const std::string hash = hex(course_.hash());
    EXPECT_EQ(hex(state_hash(course_.steps().back().after)), hash);
    EXPECT_EQ(replayed_hash(), hash);
    EXPECT_EQ(hex(state_hash(day_->match().state())), hash);
    EXPECT_EQ(hex(hash_of_bytes(day_->match(), journaled)), hash) << "the journal of the table";
    EXPECT_EQ(hex(hash_of_bytes(day_->match(), stored)), hash) << "the server";
    EXPECT_EQ(hex(hash_of_replay(day_->match())), hash) << "what was played, as a script";
    EXPECT_EQ(hex(day_->hash_on_board()), hash) << "the board of the server";
}

TEST_F(WholeMatch, PlayedByHandSeenByTheHeadAndTheSameEverywhere) {
    ASSERT_GE(course_.count<RallyWon>(), 180U);
    ASSERT_GE(course_.count<LiberoReplacement>(), 60U);
    ASSERT_GE(course_.count<Substitution>(), 10U);
    ASSERT_GE(course_.count<Redesignation>(), 1U);
    ASSERT_EQ(course_.count<CourtSwitch>(), 1U);
    ASSERT_EQ(course_.count<Ruling>(), faults.size());
    const auto& format = course_.steps().front().after.format;
    ASSERT_TRUE(format.deciding(course_.steps().back().after.set.number)) << "a deciding set";

    ASSERT_NO_FATAL_FAILURE(play());
    ASSERT_FALSE(HasNonfatalFailure());
    EXPECT_EQ(faults_seen_, faults.size());
    for (const Fault& fault : faults)
        EXPECT_TRUE(head_->sees_no_alert(QString::fromLatin1(fault.title))) << fault.title;
    expect_agreement();

    ASSERT_TRUE(head_->screen().click(QStringLiteral("liberos")));
    EXPECT_TRUE(QTest::qWaitFor(
        [&] { return head_->texts().contains(QStringLiteral("41 replaced")); }, patience_ms))
        << "the re-designation is not in the list of the liberos";
    EXPECT_TRUE(head_->texts().contains(QStringLiteral("21, 22")));
    head_->screen().picture(QStringLiteral("day-liberos-head"));
    const TableHand::Gestures& made = table_->gestures();
    EXPECT_GT(made.touches, 100);
    EXPECT_GT(made.clicks, 100);
    EXPECT_GT(made.keys, 100);
    EXPECT_GT(made.struck, 0);
    std::printf("%d touches, %d clicks, %d keys, %d slips taken back, %zu entries\n", made.touches,
                made.clicks, made.keys, made.struck, day_->journaled().size());
}

}  // namespace
}  // namespace courthand::client::test
