// An alert of a forked record says which branch of which match it is about, and no other alert
// does.
#include "server/alerts/fork_alert.h"

#include <gtest/gtest.h>

#include "server/alerts/match_conditions.h"

namespace courthand::server::alerts {
namespace {

TEST(ForkAlert, NamesItsBranchInItsId) {
    LiveMatch match;
    match.key = {TournamentId{new_uuid()}, MatchId{new_uuid()}};
    match.plan.key = match.key;
    const auto place = branch_of(fork_condition(match, 3).id);
    ASSERT_TRUE(place);
    EXPECT_EQ(*place, (BranchOfMatch{match.key.match, 3}));
}

TEST(ForkAlert, NoOtherAlertNamesOne) {
    const std::string id = "0192f0a1-0000-7000-8000-000000000009";
    for (const std::string& other : std::vector<std::string>{
             std::string{}, id, id + "/wrong-server/12a", id + "/record-forked/branch",
             id + "/record-forked/branch0", id + "/record-forked/branch1x",
             id + "/record-forked/branch-1", std::string(36, 'x') + "/record-forked/branch1"})
        EXPECT_FALSE(branch_of(other)) << other;
}

}  // namespace
}  // namespace courthand::server::alerts
