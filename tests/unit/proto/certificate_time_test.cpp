// What a device whose clock stands wrong is told.
#include "wire/certificate_time.h"

#include <gtest/gtest.h>

namespace courthand::wire {
namespace {

using std::chrono::hours;
using std::chrono::sys_days;

// EC P-256, self-signed, good from 2031-05-16 07:00 UTC to 2032-06-17 08:00 UTC.
constexpr const char* certificate =
    "-----BEGIN CERTIFICATE-----\n"
    "MIIBUDCB96ADAgECAgEBMAoGCCqGSM49BAMCMBsxGTAXBgNVBAMMEENvdXJ0aGFu\n"
    "ZCBzZXJ2ZXIwHhcNMzEwNTE2MDcwMDAwWhcNMzIwNjE3MDgwMDAwWjAbMRkwFwYD\n"
    "VQQDDBBDb3VydGhhbmQgc2VydmVyMFkwEwYHKoZIzj0CAQYIKoZIzj0DAQcDQgAE\n"
    "p3H24Zzko4fW3vaHPQol2Sgo0HEfZABrzUJGN8T66oiiiLrcOVbSMHt5lMDlQqQ+\n"
    "EJglpSDl635P0tpcziqs46MsMCowCQYDVR0TBAIwADAdBgNVHQ4EFgQUFICmKnoB\n"
    "OAWvH0N6Lz3JJTR8fjUwCgYIKoZIzj0EAwIDSAAwRQIhAJ4OE34Xt/YuwR3Z5Kk3\n"
    "sy2EVlDAalThGHElTPlAc4qBAiAQVRKzClZf5vXvErqx6P1+tU5Q1P309Mliqo5P\n"
    "2KWJ6w==\n"
    "-----END CERTIFICATE-----\n";

std::string complaint(std::chrono::system_clock::time_point clock) {
    return clock_complaint(certificate, clock).value_or("");
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

TEST(CertificateTime, ARightClockIsNoComplaint) {
    EXPECT_EQ(complaint(sys_days{std::chrono::year{2031} / 5 / 16} + hours{7}), "");
    EXPECT_EQ(complaint(sys_days{std::chrono::year{2032} / 6 / 17} + hours{8}), "");
}

TEST(CertificateTime, AClockThatIsBehindIsToldBothTimes) {
    const std::string words = complaint(sys_days{std::chrono::year{2031} / 5 / 16} + hours{6});
    EXPECT_TRUE(has(words, "clock of this device says 2031-05-16 06:00 UTC")) << words;
    EXPECT_TRUE(has(words, "from 2031-05-16 07:00 UTC")) << words;
    EXPECT_TRUE(has(words, "Set date and time")) << words;
    // A battery that died: the first moment such clocks know.
    EXPECT_TRUE(has(complaint(std::chrono::system_clock::from_time_t(0)), "1970-01-01 00:00 UTC"));
}

TEST(CertificateTime, AClockThatIsAheadIsToldBothTimes) {
    const std::string words = complaint(sys_days{std::chrono::year{2033} / 1 / 1});
    EXPECT_TRUE(has(words, "says 2033-01-01 00:00 UTC")) << words;
    EXPECT_TRUE(has(words, "ended at 2032-06-17 08:00 UTC")) << words;
    EXPECT_TRUE(has(words, "tell the desk")) << words;
}

TEST(CertificateTime, WhatIsNoCertificateSaysNothingAboutTheClock) {
    for (const char* text : {"", "nonsense", "-----BEGIN CERTIFICATE-----\nAAAA\n"})
        EXPECT_FALSE(clock_complaint(text, {})) << text;
}

}  // namespace
}  // namespace courthand::wire
