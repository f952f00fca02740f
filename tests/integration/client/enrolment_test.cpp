// Enrolment as a person does it, against a real server: the good way and every wrong one.
#include <gtest/gtest.h>

#include <sys/stat.h>

#include "client/enrol/device_folder.h"
#include "tests/integration/client/venue_kit.h"

namespace courthand::client {
namespace {

class EnrolmentTest : public testing::Test {
  protected:
    EnrolmentWish wish(const std::string& code, const std::string& name = "device") {
        EnrolmentWish out;
        out.server = venue_.host().address();
        out.code = code;
        out.folder = venue_.folder(name);
        return out;
    }
    static std::string words_of(const std::variant<Device, std::string>& result) {
        const auto* words = std::get_if<std::string>(&result);
        return words == nullptr ? "(enrolled)" : *words;
    }
    static bool has(const std::string& text, const std::string& part) {
        return text.find(part) != std::string::npos;
    }
    /// Another digit in the place `at`.
    static std::string mistype(std::string code, std::size_t at) {
        code[at] = static_cast<char>('0' + (code[at] - '0' + 1) % 10);
        return code;
    }
    Venue venue_;
};

TEST_F(EnrolmentTest, ACodeMakesADeviceOfItsCourt) {
    std::string code = venue_.code("table", 3);
    for (std::size_t at = 16; at > 0; at -= 4) code.insert(at, "-");
    const auto result = enrol(wish(code));
    ASSERT_TRUE(std::holds_alternative<Device>(result)) << words_of(result);
    const auto& device = std::get<Device>(result);
    EXPECT_EQ(device.seat, Seat::table);
    EXPECT_EQ(device.court, 3);
    EXPECT_EQ(device.server, venue_.host().address());
    EXPECT_FALSE(device.tournament_id.empty());
    for (const char* name : {"device.key", "device.crt", "authority.crt"}) {
        struct stat status {};
        ASSERT_EQ(stat((venue_.folder("device") / name).c_str(), &status), 0) << name;
        EXPECT_EQ(status.st_mode & 0777U, 0600U) << name;
    }
    const auto journal = open_journal(venue_.folder("device"));
    const auto kept = load_device(*journal);
    EXPECT_EQ(std::get<Device>(kept).id, device.id);
    EXPECT_TRUE(std::get<Device>(kept).enrolled);
}

TEST_F(EnrolmentTest, ACodeIsGoodOnce) {
    const std::string code = venue_.code("table", 1);
    ASSERT_TRUE(std::holds_alternative<Device>(enrol(wish(code))));
    const std::string words = words_of(enrol(wish(code, "other")));
    EXPECT_TRUE(has(words, "used")) << words;
    EXPECT_TRUE(std::holds_alternative<std::string>(load_credentials(venue_.folder("other"))));
}

TEST_F(EnrolmentTest, AWrongSecretIsToldAndTheRightOneStillWorks) {
    const std::string code = venue_.code("table", 1);
    const std::string words = words_of(enrol(wish(mistype(code, 5))));
    EXPECT_TRUE(has(words, "code")) << words;
    EXPECT_FALSE(has(words, "(enrolled)")) << words;
    EXPECT_TRUE(std::holds_alternative<Device>(enrol(wish(code))));
}

TEST_F(EnrolmentTest, AMistypedCheckDigitNeverSendsTheSecret) {
    const std::string code = venue_.code("table", 1);
    // More often than a server takes wrong tries: none of these reached it.
    for (std::size_t at = 6; at < 20; ++at) {
        const std::string words = words_of(enrol(wish(mistype(code, at))));
        EXPECT_TRUE(has(words, "secret was not sent")) << words;
    }
    EXPECT_TRUE(std::holds_alternative<Device>(enrol(wish(code))));
}

TEST_F(EnrolmentTest, AnExpiredCodeIsToldAsExpired) {
    const std::string code = venue_.code("table", 1);
    venue_.database().run("update enrolment_code set expires_at = now() - interval '1 minute'");
    const std::string words = words_of(enrol(wish(code)));
    EXPECT_TRUE(has(words, "expired")) << words;
}

TEST_F(EnrolmentTest, ACodeThatIsNoCodeIsToldBeforeAnythingElse) {
    const std::string words = words_of(enrol(wish("12345")));
    EXPECT_TRUE(has(words, "digits")) << words;
}

TEST_F(EnrolmentTest, AServerThatIsNotThereIsNamed) {
    EnrolmentWish away = wish(venue_.code("table", 1));
    away.server = "127.0.0.1:" + std::to_string(server::testing::free_port());
    EXPECT_TRUE(has(words_of(enrol(away)), away.server)) << words_of(enrol(away));
    away.server = "no-such-host.invalid:7443";
    EXPECT_TRUE(has(words_of(enrol(away)), "not known")) << words_of(enrol(away));
    away.server = "127.0.0.1";
    EXPECT_TRUE(has(words_of(enrol(away)), "HOST:PORT")) << words_of(enrol(away));
}

TEST_F(EnrolmentTest, TheServerOfAnotherVenueIsNotToldTheSecret) {
    const Venue other;
    EnrolmentWish wrong = wish(other.code("table", 1));
    EXPECT_TRUE(has(words_of(enrol(wrong)), "another venue")) << words_of(enrol(wrong));
}

TEST_F(EnrolmentTest, ANewerProgramIsToldToUpdateTheServer) {
    EnrolmentWish newer = wish(venue_.code("table", 1));
    newer.protocol = 99;
    const std::string words = words_of(enrol(newer));
    EXPECT_TRUE(has(words, "Update the server")) << words;
}

}  // namespace
}  // namespace courthand::client
