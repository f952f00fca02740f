// How often a stranger may try enrolment codes: addresses and time are parameters.
#include "server/auth/attempt_limiter.h"

#include <gtest/gtest.h>

namespace courthand::server::auth {
namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;

const AttemptLimiter::Instant start{std::chrono::hours{1000}};
/// Three tries, then one each second; six over all, then ten a second; four addresses.
const AttemptLimits small{{3, milliseconds{1000}}, {6, milliseconds{100}}, 4};

unsigned tries_taken(AttemptLimiter& limiter, const std::string& address, unsigned tries,
                     AttemptLimiter::Instant now) {
    unsigned taken = 0;
    for (unsigned i = 0; i < tries; ++i)
        if (!limiter.take(address, now)) ++taken;
    return taken;
}

TEST(AttemptLimiter, ABurstAndThenOneEachRefill) {
    AttemptLimiter limiter{small};
    EXPECT_EQ(tries_taken(limiter, "a", 10, start), 3U);
    EXPECT_EQ(limiter.take("a", start), milliseconds{1000});
    EXPECT_EQ(limiter.take("a", start + milliseconds{400}), milliseconds{600});
    EXPECT_EQ(tries_taken(limiter, "a", 10, start + seconds{1}), 1U);
    EXPECT_EQ(tries_taken(limiter, "a", 10, start + seconds{3}), 2U);
    EXPECT_EQ(tries_taken(limiter, "a", 10, start + seconds{600}), 3U) << "never more than a burst";
}

TEST(AttemptLimiter, AStrangerWhoHammersStopsNobodyElse) {
    AttemptLimiter limiter{small};
    unsigned taken = 0;
    for (auto now = start; now < start + seconds{10}; now += milliseconds{10}) {
        if (!limiter.take("stranger", now)) ++taken;
        if (now == start + seconds{5}) {
            EXPECT_FALSE(limiter.take("tablet", now));
        }
    }
    EXPECT_EQ(taken, 3U + 9U);
}

TEST(AttemptLimiter, TheCeilingHoldsForAllAddressesThatHaveFailed) {
    AttemptLimiter limiter{small};
    EXPECT_EQ(tries_taken(limiter, "a", 3, start), 3U);
    EXPECT_EQ(tries_taken(limiter, "b", 3, start), 3U);
    EXPECT_FALSE(limiter.take("c", start)) << "it has not failed";
    EXPECT_EQ(limiter.take("c", start), milliseconds{100});
    EXPECT_FALSE(limiter.take("c", start + milliseconds{100})) << "the refusal cost nothing";
}

// One stranger with many addresses used up the ceiling, and the venue was locked out.
TEST(AttemptLimiter, AStrangerWithManyAddressesLocksOutNobody) {
    AttemptLimiter limiter;
    for (auto now = start; now < start + seconds{60}; now += milliseconds{500}) {
        for (int host = 0; host < 1000; ++host)
            (void)tries_taken(limiter, "10.0.0." + std::to_string(host), 3, now);
        const std::string tablet = "tablet " + std::to_string(now.time_since_epoch().count());
        EXPECT_FALSE(limiter.take(tablet, now));
        limiter.give_back(tablet);
        EXPECT_FALSE(limiter.take(tablet, now)) << "a right code is no failure";
    }
}

TEST(AttemptLimiter, ManyAddressesGetLittleMoreThanTheCeiling) {
    const AttemptLimits usual;
    AttemptLimiter limiter{usual};
    unsigned taken = 0;
    for (auto now = start; now < start + seconds{600}; now += seconds{1})
        for (int host = 0; host < 254; ++host)
            taken += tries_taken(limiter, "10.0.0." + std::to_string(host), 1, now);
    EXPECT_LT(taken, 600U * 50U + usual.overall.burst + 254U * 4U);
}

TEST(AttemptLimiter, AFailureIsForgottenInTheEnd) {
    AttemptLimiter limiter{small};
    EXPECT_EQ(tries_taken(limiter, "a", 3, start), 3U);
    EXPECT_EQ(tries_taken(limiter, "b", 3, start), 3U);
    EXPECT_EQ(limiter.addresses(), 2U);
    EXPECT_FALSE(limiter.take("late", start + small.forgets + seconds{3}));
    EXPECT_EQ(limiter.addresses(), 1U);
}

TEST(AttemptLimiter, ARightCodeCostsNoTry) {
    AttemptLimiter limiter{small};
    for (int i = 0; i < 100; ++i) {
        ASSERT_FALSE(limiter.take("cart of tablets", start)) << i;
        limiter.give_back("cart of tablets");
    }
}

TEST(AttemptLimiter, TheTableOfAddressesIsBoundedAndKeepsTheWorst) {
    AttemptLimiter limiter{AttemptLimits{{3, milliseconds{1000}}, {1000, milliseconds{1}}, 4}};
    EXPECT_EQ(tries_taken(limiter, "stranger", 3, start), 3U);
    for (int i = 0; i < 50; ++i) EXPECT_FALSE(limiter.take(std::to_string(i), start));
    EXPECT_EQ(limiter.addresses(), 4U);
    EXPECT_TRUE(limiter.take("stranger", start)) << "not forgotten for the sake of newer ones";
}

TEST(AttemptLimiter, TheUsualLimitsLetOneAddressNeverUseUpTheCeiling) {
    const AttemptLimits usual;
    EXPECT_LT(usual.address.burst * 4, usual.overall.burst);
    EXPECT_GT(usual.address.refill, usual.overall.refill * 100);
}

std::string v6(const std::string& network, unsigned host) {
    return address_of_peer("ipv6:[" + network + "::" + std::to_string(host) + "]:7");
}

// One stranger in the network of the hall used up the tries of all its tablets.
TEST(AttemptLimiter, AStrangerInTheSameNetworkLocksOutNoTablet) {
    AttemptLimiter limiter;
    unsigned tablet = 5000;
    for (auto now = start; now < start + seconds{60}; now += milliseconds{500}) {
        (void)tries_taken(limiter, v6("2001:db8", 9), 100, now);
        for (unsigned host = 1000; host < 1200; ++host)
            (void)tries_taken(limiter, v6("2001:db8", host), 3, now);
        EXPECT_FALSE(limiter.take(v6("2001:db8", ++tablet), now));
    }
}

// Who hops through the addresses of one network gets one try of each and no more.
TEST(AttemptLimiter, AHopperThroughANetworkGetsOneTryOfEachAddress) {
    const AttemptLimits usual;
    AttemptLimiter limiter;
    constexpr unsigned addresses = 2000;
    unsigned taken = 0;
    for (unsigned host = 1; host <= addresses; ++host)
        taken += tries_taken(limiter, v6("2001:db8:0:7", host), usual.address.burst, start);
    EXPECT_GE(taken, addresses);
    EXPECT_LT(taken, addresses + 100U);
}

// Their addresses are not of the network that fails.
TEST(AttemptLimiter, AnotherNetworkIsAskedNothingOfIt) {
    AttemptLimiter limiter{AttemptLimits{{3, milliseconds{1000}}, {1000, milliseconds{1}}}};
    for (unsigned host = 1; host < 200; ++host)
        (void)tries_taken(limiter, v6("2001:db8:0:7", host), 3, start);
    EXPECT_EQ(tries_taken(limiter, v6("2001:db8:0:8", 1), 10, start), 3U);
    EXPECT_EQ(tries_taken(limiter, "192.0.2.7", 10, start), 3U);
}

TEST(AddressOfPeer, IsWithoutThePort) {
    EXPECT_EQ(address_of_peer("ipv4:192.0.2.7:51234"), "192.0.2.7");
    EXPECT_EQ(address_of_peer("unix:/run/somewhere"), "unix:/run/somewhere");
    EXPECT_EQ(address_of_peer(""), "");
    for (const char* peer :
         {"ipv6:[2001:db8::9]:7", "ipv6:%5B2001:db8::9%5D:7", "ipv6:%5B2001:db8::9%25eth0%5D:7",
          "ipv6:[2001:db8:0:0:0::9]:9", "ipv6:[2001:DB8::9]:9"})
        EXPECT_EQ(address_of_peer(peer), "2001:db8::9") << peer << ": written one way";
    EXPECT_EQ(address_of_peer("ipv6:[::ffff:192.0.2.7]:7"), "::ffff:192.0.2.7");
}

}  // namespace
}  // namespace courthand::server::auth
