// A fact by the names of its kind and its fields, as a sheet says it.
#include "said_fact.h"

#include <gtest/gtest.h>

namespace courthand::client::test {
namespace {

/// The first team stands on the left; nothing is recorded.
class Nobody final : public Acting {
  public:
    bool perform(const std::vector<Fact>&, const QString&) override { return false; }
    bool attempt(const Fact&) override { return false; }
    bool amend(EntryNumber, const Fact&) override { return false; }
    void ask(Proposal) override {}
    void propose(const Option&) override {}
    [[nodiscard]] Team team_on(bool on_left) const override { return on_left ? Team::A : Team::B; }
    void show_again() override {}
    void say(const QString&, bool) override {}
    void want_sheet(const QString&) override {}
    void want_substitution(Team, Jersey) override {}
};

std::optional<Fact> said(const char* kind, const QVariantMap& fields) {
    return fact_said(QString::fromLatin1(kind), fields, Nobody{});
}

TEST(SaidFact, HasEachOfItsFields) {
    EXPECT_EQ(said("misconduct", {{"team", false}, {"person", 34}, {"sanction", "penalty"}}),
              (Fact{Misconduct{Team::B, Jersey{34}, Sanction::penalty}}));
    EXPECT_EQ(said("misconduct", {{"team", true}, {"person", -1}, {"sanction", "warning"}}),
              (Fact{Misconduct{Team::A, Jersey::none(), Sanction::warning}}));
    EXPECT_EQ(said("libero_box_settled", {{"team", true}, {"box", 2}, {"entry", -1}}),
              (Fact{LiberoBoxSettled{Team::A, 1, {LiberoBox::Mark::none, Jersey::none()}}}));
    EXPECT_EQ(said("libero_box_settled", {{"team", true}, {"box", 1}, {"entry", 21}}),
              (Fact{LiberoBoxSettled{Team::A, 0, {LiberoBox::Mark::number, Jersey{21}}}}));
    EXPECT_EQ(said("resumed", {{"how", "over-four-hours"}}),
              (Fact{Resumed{Resumed::How::over_four_hours}}));
    EXPECT_EQ(said("replay", {}), (Fact{Replay{}}));
}

TEST(SaidFact, IsNoneWhenAFieldIsMissingOrNoneThatItMayHave) {
    EXPECT_EQ(said("injury", {{"team", true}}), std::nullopt);
    EXPECT_EQ(said("injury", {{"team", true}, {"player", -1}}), std::nullopt)
        << "an injured player has a number";
    EXPECT_EQ(said("delay", {{"team", true}, {"sanction", "expulsion"}}), std::nullopt)
        << "a delay brings a warning or a penalty only";
    EXPECT_EQ(said("delay", {{"team", true}, {"sanction", "fine"}}), std::nullopt);
    EXPECT_EQ(said("libero_box_settled", {{"team", true}, {"box", 3}, {"entry", 21}}),
              std::nullopt);
    EXPECT_EQ(said("libero_box_settled", {{"team", true}, {"box", 0}, {"entry", 21}}),
              std::nullopt);
}

TEST(SaidFact, IsNoneForAKindThatIsUnknownOrWrittenByHand) {
    EXPECT_EQ(said("goal", {{"team", true}}), std::nullopt);
    EXPECT_EQ(said("substitution", {{"team", true}}), std::nullopt);
}

}  // namespace
}  // namespace courthand::client::test
