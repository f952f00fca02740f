// Signatures given at a table, over a real server and a real database, until the result counts: no
// desk is there.
#include <gtest/gtest.h>

#include <fstream>

#include "courthand/match/signatures.h"
#include "courthand/sim/match_player.h"
#include "tests/integration/client/onlooker.h"
#include "tests/integration/client/venue_kit.h"
#include "wire/sha256.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

constexpr const char* a_final =
    R"(# common practice, no source: one match, whose result is signed at the table
tournament "Harbour Cup" from 2026-11-28 to 2026-11-28 zone Europe/London
results-by signatures
division U16 profile international-2021 chain international-2017 format best-of 1 deciding 5
court 1 opens 2026-11-28T08:30 closes 2026-11-28T19:00
team "Harbour Lights" in U16
team "Mill Lane" in U16
bracket U16 single prefix M
place M1 court 1 at 2026-11-28T09:00
)";

class SignedAtTheTable : public testing::Test {
  protected:
    void SetUp() override {
        const auto script = scratch_.path() / "a-final.event";
        std::ofstream{script} << a_final;
        venue_ = std::make_unique<Venue>(
            std::vector<std::string>{"--event", script.string(), "--signed-after", "1"});
        folder_ = venue_->enrol_table("table-1", 1);
        head_ = std::make_unique<Onlooker>(venue_->enrol_seat("head", "head"));
        table_ = open_table(folder_);
        ASSERT_NE(table_, nullptr);
        ASSERT_TRUE(eventually([&] {
            table_->look_at_court();
            id_ = table_->next_match();
            return !id_.empty();
        }));
        auto opened = table_->open_match(id_);
        ASSERT_TRUE(std::holds_alternative<std::unique_ptr<JournaledMatch>>(opened));
        match_ = std::move(std::get<0>(opened));
        play();
    }

    /// Two teams that do nothing illegal.
    void play() {
        sim::Habits habits;
        habits.illegal = habits.wrong_server = habits.misconduct = habits.replay = 0;
        sim::MatchPlayer player{7, habits};
        while (const auto step = player.next(match_->rules(), match_->state()))
            ASSERT_FALSE(
                (step->fact ? match_->record(*step->fact, step->words) : match_->strike_last())
                    .error);
        ASSERT_TRUE(match_->standing().empty());
    }
    void sign(Signer by) { ASSERT_FALSE(match_->record(Signature{by}).error); }
    /// All that was recorded is in the server's record.
    ::testing::AssertionResult is_sent() {
        return eventually([&] {
            match_->poll();
            return table_->all_sent();
        });
    }
    [[nodiscard]] std::optional<event::Result> result() {
        const auto state = head_->state();
        const auto match = state->find_match("M1");
        return match ? state->match(*match).result : std::nullopt;
    }
    [[nodiscard]] std::array<std::uint8_t, 32> head_of_record() {
        return wire::sha256(venue_->record(folder_, id_).back());
    }

    ScratchFolder scratch_;
    std::unique_ptr<Venue> venue_;
    std::filesystem::path folder_;
    std::unique_ptr<Onlooker> head_;
    std::unique_ptr<TableStation> table_;
    std::string id_;
    std::unique_ptr<JournaledMatch> match_;
};

TEST_F(SignedAtTheTable, TheResultCountsWithoutADesk) {
    for (const Signer signer : record_signers) sign(signer);
    ASSERT_TRUE(is_sent());
    ASSERT_TRUE(eventually([&] { return result().has_value(); }));
    EXPECT_EQ(result()->from, event::ResultFrom::signed_record);
    EXPECT_EQ(result()->head.bytes, head_of_record());
    ASSERT_EQ(result()->sets.size(), 1U);
    EXPECT_EQ(std::max(result()->sets[0].first, result()->sets[0].second),
              std::max(match_->state().results[0].score.a, match_->state().results[0].score.b));
}

// The second captain signs a result that was corrected after the first one had: who had signed
// signs anew. Had the server confirmed before, the result would rest on an earlier entry.
TEST_F(SignedAtTheTable, ACorrectionTakesTheSignaturesBack) {
    sign(Signer::captain_a);
    sign(Signer::first_referee);
    ASSERT_FALSE(match_->correct(Insert{1, Note{}}, "what was forgotten").error);
    sign(Signer::captain_b);
    ASSERT_TRUE(is_sent());
    sign(Signer::captain_a);
    ASSERT_TRUE(is_sent());
    EXPECT_FALSE(result());
    sign(Signer::first_referee);
    ASSERT_TRUE(is_sent());
    ASSERT_TRUE(eventually([&] { return result().has_value(); }));
    EXPECT_EQ(result()->head.bytes, head_of_record());
}

// A confirmed result is never changed behind a person's back.
TEST_F(SignedAtTheTable, ACorrectionOfAConfirmedResultIsForTheDesk) {
    for (const Signer signer : closing_signers) sign(signer);
    ASSERT_TRUE(is_sent());
    ASSERT_TRUE(eventually([&] { return result().has_value(); }));
    const auto confirmed = *result();
    ASSERT_FALSE(match_->correct(Insert{1, Note{}}, "what was forgotten").error);
    for (const Signer signer : closing_signers) sign(signer);
    ASSERT_TRUE(is_sent());
    EXPECT_EQ(result(), confirmed);
    EXPECT_NE(result()->head.bytes, head_of_record()) << "the desk is told: written since";
}

TEST_F(SignedAtTheTable, UnderProtestItWaitsUntilTheProtestIsTakenBack) {
    ASSERT_FALSE(match_->record(Fact{Protest{Team::B}}, "the last rally").error);
    const auto protest = static_cast<EntryNumber>(match_->records().size());
    for (const Signer signer : record_signers) sign(signer);
    ASSERT_TRUE(is_sent());
    EXPECT_FALSE(result());
    ASSERT_FALSE(match_->correct(Strike{protest}, {}).error);
    for (const Signer signer : closing_signers) sign(signer);
    ASSERT_TRUE(is_sent());
    ASSERT_TRUE(eventually([&] { return result().has_value(); }));
    EXPECT_EQ(result()->head.bytes, head_of_record());
}

}  // namespace
}  // namespace courthand::client
