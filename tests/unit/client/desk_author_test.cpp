// What a desk is called in the record.
#include <gtest/gtest.h>

#include "client/app/enrolled_seat.h"

namespace courthand::client {
namespace {

TEST(DeskAuthor, IsTheFunctionAndTheEndOfTheDevicesId) {
    Device device;
    device.seat = Seat::desk;
    device.enrolled = true;
    device.id = "0192f0a1-0000-7000-8000-0000000000a1";
    EXPECT_EQ(desk_author(device), "desk 0000a1");
    Device other = device;
    other.id = "0192f0a1-0000-7000-8000-0000000000a2";
    EXPECT_NE(desk_author(other), desk_author(device));
    // The record takes 64 bytes.
    other.id = std::string(1000, 'a');
    EXPECT_LE(desk_author(other).size(), 64U);
}

TEST(DeskAuthor, OfADeviceThatNobodyEnrolledIsTheFunctionAlone) {
    Device device;
    device.id = "0192f0a1-0000-7000-8000-0000000000a1";
    EXPECT_EQ(desk_author(device), "desk");
    device.enrolled = true;
    device.id.clear();
    EXPECT_EQ(desk_author(device), "desk");
}

}  // namespace
}  // namespace courthand::client
