// Enrolment as a person does it, against a real server: the good way and every wrong one.
#include <gtest/gtest.h>

#include <sys/stat.h>

#include <cctype>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "client/enrol/code_source.h"
#include "client/enrol/device_folder.h"
#include "client/enrol/signing_request.h"
#include "server/testing/forwarder.h"
#include "tests/integration/client/venue_kit.h"
#include "wire/enrolment_code.h"

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
    /// Another symbol in the place `at`.
    static std::string mistype(std::string code, std::size_t at) {
        code[at] = code[at] == '7' ? 'W' : '7';
        return code;
    }
    static std::string text_of(const std::filesystem::path& file) {
        std::ifstream in{file, std::ios::binary};
        return {std::istreambuf_iterator<char>{in}, std::istreambuf_iterator<char>{}};
    }
    Venue venue_;
};

TEST_F(EnrolmentTest, ACodeMakesADeviceOfItsCourt) {
    std::string code = venue_.code("table", 3);
    for (std::size_t at = 20; at > 0; at -= 4) code.insert(at, "-");
    for (char& c : code) c = static_cast<char>(std::tolower(c));
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

TEST_F(EnrolmentTest, AMistypedFingerprintNeverSendsTheSecret) {
    const std::string code = venue_.code("table", 1);
    for (std::size_t at = wire::secret_symbols; at < wire::code_symbols; ++at) {
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
    EXPECT_TRUE(has(words, "has 5 characters; 24 are needed")) << words;
}

// The answer is cut off on its way, after the server has used up the code.
TEST_F(EnrolmentTest, AnAnswerLostOnTheWayIsFetchedWithTheSameCode) {
    const auto devices = [&] { return venue_.database().run("select count(*) from device"); };
    const server::testing::Forwarder bad_line{"127.0.0.1", venue_.host().port(),
                                              [&] { return devices() == "0"; }};
    const std::string code = venue_.code("table", 2);
    EnrolmentWish first = wish(code);
    first.server = bad_line.address();
    const std::string words = words_of(enrol(first));
    EXPECT_TRUE(has(words, "with the same code")) << words;
    EXPECT_GE(bad_line.cuts(), 1U);
    ASSERT_EQ(devices(), "1") << "the server has enrolled the device";
    const std::string key = text_of(EnrolmentKey{first.folder}.file());
    EXPECT_TRUE(has(key, "PRIVATE KEY")) << "kept before it was sent";

    EXPECT_TRUE(has(words_of(enrol(wish(code, "other"))), "used")) << "for another key it is used";
    const auto again = enrol(wish(code));
    ASSERT_TRUE(std::holds_alternative<Device>(again)) << words_of(again);
    EXPECT_EQ(devices(), "1") << "it is the same device";
    EXPECT_EQ(std::get<Device>(again).court, 2);
    EXPECT_EQ(text_of(first.folder / "device.key"), key);
    EXPECT_FALSE(std::filesystem::exists(EnrolmentKey{first.folder}.file()));
    EXPECT_TRUE(
        has(venue_.database().run("select device_id from device"), std::get<Device>(again).id));
}

// The answer has come and the certificate cannot be written; then the code dies.
TEST_F(EnrolmentTest, OneThatWasCutShortAfterTheAnswerIsFinishedByTheNextStart) {
    const EnrolmentWish cut = wish(venue_.code("table", 2));
    std::filesystem::create_directories(cut.folder / "device.crt" / "in-the-way");
    const std::string words = words_of(enrol(cut));
    ASSERT_TRUE(has(words, "device.crt")) << words;
    std::filesystem::remove_all(cut.folder / "device.crt");
    venue_.database().run("update enrolment_code set expires_at = now() - interval '1 minute'");

    const auto table = open_table(cut.folder);
    ASSERT_NE(table, nullptr);
    ASSERT_TRUE(table->syncs()) << "the server has enrolled it, and it does not know";
    EXPECT_EQ(table->court(), 2);
    EXPECT_TRUE(has(venue_.database().run("select device_id from device"), table->device().id));
    EXPECT_TRUE(eventually([&] { return table->status("").link == SyncStatus::Link::online; }))
        << table->status("").last_error;
    EXPECT_FALSE(std::filesystem::exists(EnrolmentKey{cut.folder}.file()));
}

TEST_F(EnrolmentTest, ADeviceEnrolledAnewAndCutShortKeepsNoMixOfTwoDevices) {
    const auto first = enrol(wish(venue_.code("table", 1)));
    ASSERT_TRUE(std::holds_alternative<Device>(first)) << words_of(first);
    const EnrolmentWish cut = wish(venue_.code("table", 2));
    std::filesystem::rename(cut.folder / "device.crt", cut.folder / "aside");
    std::filesystem::create_directories(cut.folder / "device.crt" / "in-the-way");
    ASSERT_TRUE(has(words_of(enrol(cut)), "device.crt"));
    std::filesystem::remove_all(cut.folder / "device.crt");
    std::filesystem::rename(cut.folder / "aside", cut.folder / "device.crt");

    const auto table = open_table(cut.folder);
    ASSERT_NE(table, nullptr);
    EXPECT_EQ(table->court(), 2);
    EXPECT_NE(table->device().id, std::get<Device>(first).id);
    EXPECT_TRUE(eventually([&] { return table->status("").link == SyncStatus::Link::online; }))
        << table->status("").last_error;
}

TEST_F(EnrolmentTest, TheKeyOfAnEnrolmentIsForTheOwnersEyesAndADamagedOneIsReplaced) {
    const EnrolmentKey kept{venue_.folder("device")};
    const auto key_now = [&] { return std::get<SigningRequest>(kept.request()).key_pem; };
    const std::string first = key_now();
    EXPECT_EQ(key_now(), first);
    struct stat status {};
    ASSERT_EQ(stat(kept.file().c_str(), &status), 0);
    EXPECT_EQ(status.st_mode & 0777U, 0600U);
    std::ofstream{kept.file()} << first.substr(0, first.size() / 2);
    EXPECT_NE(key_now(), first);
}

TEST_F(EnrolmentTest, ADeviceWhoseClockIsWrongIsToldSoBeforeTheCodeIsUsed) {
    EnrolmentWish behind = wish(venue_.code("table", 1));
    behind.clock = std::chrono::system_clock::from_time_t(0);  // a clock whose battery died
    const std::string words = words_of(enrol(behind));
    EXPECT_TRUE(has(words, "clock of this device says 1970-01-01 00:00 UTC")) << words;
    EXPECT_TRUE(has(words, "Set date and time")) << words;
    behind.clock = std::chrono::system_clock::now();
    EXPECT_TRUE(std::holds_alternative<Device>(enrol(behind)));
}

TEST_F(EnrolmentTest, ADeviceEnrolledAgainIsAnotherDevice) {
    const auto first = enrol(wish(venue_.code("table", 1)));
    const auto second = enrol(wish(venue_.code("table", 1)));
    ASSERT_TRUE(std::holds_alternative<Device>(second)) << words_of(second);
    EXPECT_NE(std::get<Device>(first).id, std::get<Device>(second).id);
    EXPECT_EQ(venue_.database().run("select count(distinct key) from device"), "2");
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

TEST(CodeSource, ACodeComesFromTheCommandLineFromStandardInputOrFromAFile) {
    const ScratchFolder folder;
    const auto file = folder.path() / "code";
    std::ofstream{file} << "7K3M 9QXA 04ZT V8WB 5C1N HRJ6\nanother line\n";
    const auto code_of = [](const std::string& words, const std::filesystem::path& from,
                            const std::string& input) {
        std::istringstream in{input};
        const auto result = code_of_words(words, from, in);
        const auto* code = std::get_if<TypedCode>(&result);
        return code ? code->text : "wrong: " + std::get<std::string>(result);
    };
    EXPECT_EQ(code_of("7K3M", {}, "not read"), "7K3M");
    EXPECT_EQ(code_of("-", {}, "7K3M 9QXA\nrest"), "7K3M 9QXA");
    EXPECT_EQ(code_of("", file, ""), "7K3M 9QXA 04ZT V8WB 5C1N HRJ6");
    EXPECT_EQ(code_of("-", {}, "").rfind("wrong: There is no code in standard input", 0), 0U);
    const auto nowhere = folder.path() / "nowhere";
    EXPECT_NE(code_of("", nowhere, "").find(nowhere.string()), std::string::npos);
    EXPECT_LT(code_of("-", {}, std::string(100'000, '7')).size(), 300U);
}

}  // namespace
}  // namespace courthand::client
