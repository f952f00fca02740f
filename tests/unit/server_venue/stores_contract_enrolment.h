// What the store of enrolment codes and devices promises.
#pragma once

#include "stores_contract.h"

namespace courthand::server::testing {

class EnrolmentBook : public VenueStores {
  protected:
    using Instant = auth::Instant;
    static inline const Instant now =
        Instant{} + std::chrono::hours{500'000};  // whole seconds: the database keeps microseconds
    auth::EnrolmentStore& store() { return stores_.enrolments; }
    static auth::StoredCode code(const std::string& hash, std::chrono::minutes lives) {
        auth::StoredCode made;
        made.hash = hash;
        made.seat = auth::Seat::table;
        made.court = 3;
        made.expires = now + lives;
        return made;
    }
    static auth::Device tablet(const std::string& key = "key") {
        return {{DeviceId{new_uuid()}, auth::Seat::table, 3}, "tablet 3", now, std::nullopt, key};
    }
};

TEST_F(EnrolmentBook, ACodeIsUsedOnceAndThenTellsByWhom) {
    ASSERT_TRUE(store().add_code(code("one", std::chrono::minutes{5}), now).ok());
    EXPECT_EQ(*store().live_codes(now), 1U);
    const auth::Device first = tablet();
    EXPECT_TRUE(*store().use_code("one", first, now));
    EXPECT_FALSE(*store().use_code("one", tablet(), now));
    const auto used = *store().code("one");
    ASSERT_TRUE(used);
    EXPECT_EQ(used->used_by, first.who.device);
    EXPECT_EQ(used->court, 3U);
    EXPECT_EQ(*store().live_codes(now), 0U);
    ASSERT_EQ(store().devices()->size(), 1U);
    EXPECT_EQ(store().devices()->front().who, first.who);
    EXPECT_EQ(store().devices()->front().key, "key");
    EXPECT_FALSE(*store().code("another"));
}

TEST_F(EnrolmentBook, ACodeThatRanOutIsNoneAndIsForgottenLater) {
    ASSERT_TRUE(store().add_code(code("old", std::chrono::minutes{1}), now).ok());
    const Instant after = now + std::chrono::minutes{1};
    EXPECT_EQ(*store().live_codes(after), 0U);
    EXPECT_FALSE(*store().use_code("old", tablet(), after));
    EXPECT_TRUE(*store().code("old")) << "still told from one that never was";
    const Instant later = after + auth::expired_codes_kept + std::chrono::minutes{1};
    ASSERT_TRUE(store().add_code(code("new", std::chrono::minutes{100'000}), later).ok());
    EXPECT_FALSE(*store().code("old"));
}

TEST_F(EnrolmentBook, ARevocationKeepsItsFirstTime) {
    ASSERT_TRUE(store().add_code(code("one", std::chrono::minutes{5}), now).ok());
    const auth::Device device = tablet();
    ASSERT_TRUE(*store().use_code("one", device, now));
    EXPECT_TRUE(store().revoked_devices()->empty());
    EXPECT_TRUE(*store().revoke(device.who.device, now + std::chrono::minutes{1}));
    EXPECT_TRUE(*store().revoke(device.who.device, now + std::chrono::minutes{9}));
    EXPECT_EQ((*store().device(device.who.device))->revoked, now + std::chrono::minutes{1});
    EXPECT_EQ(*store().revoked_devices(), std::vector{device.who.device});
    EXPECT_FALSE(*store().revoke(DeviceId{new_uuid()}, now)) << "there is no such device";
    EXPECT_FALSE(*store().device(DeviceId{new_uuid()}));
}

TEST_F(EnrolmentBook, BothWaysToItLeadToTheSameBook) {
    ASSERT_TRUE(store().add_code(code("one", std::chrono::minutes{5}), now).ok());
    const auth::Device device = tablet();
    ASSERT_TRUE(*store().use_code("one", device, now));
    EXPECT_TRUE(*stores_.watched_enrolments.device(device.who.device));
}

}  // namespace courthand::server::testing
