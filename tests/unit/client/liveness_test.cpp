// A dead server is noticed by what does not come, on a clock that nobody can set back.
#include <openssl/evp.h>
#include <openssl/pem.h>

#include "client/sync/entry_signer.h"
#include "tests/testkit/hand_clock.h"
#include "tests/unit/client/sync_engine_kit.h"

namespace courthand::client {
namespace {

[[nodiscard]] std::function<SyncEngine::Clock::time_point()> read(testkit::HandClock& clock) {
    return [&clock] { return SyncEngine::Clock::time_point{clock.steady()}; };
}

using Liveness = SyncEngineTest;

TEST_F(Liveness, AWatchThatFallsSilentIsBegunAgain) {
    put_on_court();
    testkit::HandClock clock;
    options_.now = read(clock);
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return server_.cursors().size() == 1; }));
    v1::WatchResponse bookmark;
    bookmark.mutable_bookmark();
    for (int i = 0; i < 6; ++i) {
        clock.pass(5s);
        bookmark.set_cursor("b" + std::to_string(i));
        server_.tell(bookmark);
        ASSERT_TRUE(eventually(
            [&] { return journal_->setting(watch_cursor_setting) == bookmark.cursor(); }));
    }
    EXPECT_EQ(server_.cursors().size(), 1U) << "bookmarks are a sign of life";
    clock.pass(15s);
    ASSERT_TRUE(eventually([&] { return server_.cursors().size() == 2; }));
    EXPECT_EQ(server_.cursors()[1], "b5") << "goes on from the last cursor";
    engine.stop();
}

TEST_F(Liveness, ASilentServerIsNoticedWithinFifteenSeconds) {
    EXPECT_LE(SyncEngine::Options{}.longest_silence + 1s, 15s);
    // Three bookmarks, one every five seconds, are more than may be missed.
    EXPECT_GT(SyncEngine::Options{}.longest_silence, 10s);
}

TEST_F(Liveness, NoTwoDevicesBackOffInStep) {
    EXPECT_EQ(SyncEngine::Options{}.seed, 0U) << "the device's own";
    Device other = device_;
    other.id.back() = '5';
    std::vector<std::vector<long>> waits;
    for (const Device& device : {device_, other}) {
        BackOff back_off{{}, jitter_seed(device)};
        waits.emplace_back();
        for (int i = 0; i < 6; ++i) waits.back().push_back(back_off.next().count());
    }
    EXPECT_NE(waits[0], waits[1]);
}

/// A key as enrolment makes it.
std::string new_key() {
    EVP_PKEY* key = EVP_EC_gen("P-256");
    BIO* bio = BIO_new(BIO_s_mem());
    PEM_write_bio_PrivateKey(bio, key, nullptr, nullptr, 0, nullptr, nullptr);
    char* data = nullptr;
    const long size = BIO_get_mem_data(bio, &data);
    std::string pem(data, static_cast<std::size_t>(size));
    BIO_free(bio);
    EVP_PKEY_free(key);
    return pem;
}

bool verifies(const std::string& pem, const std::string& bytes, const std::string& signature) {
    BIO* bio = BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size()));
    EVP_PKEY* key = PEM_read_bio_PrivateKey(bio, nullptr, nullptr, nullptr);
    EVP_MD_CTX* context = EVP_MD_CTX_new();
    EVP_DigestVerifyInit(context, nullptr, EVP_sha256(), nullptr, key);
    const bool good =
        EVP_DigestVerify(context, reinterpret_cast<const unsigned char*>(signature.data()),
                         signature.size(), reinterpret_cast<const unsigned char*>(bytes.data()),
                         bytes.size()) == 1;
    EVP_MD_CTX_free(context);
    EVP_PKEY_free(key);
    BIO_free(bio);
    return good;
}

using Signing = SyncEngineTest;

TEST_F(Signing, EveryEntryGoesOutWithTheSignatureOfItsDevice) {
    const std::string pem = new_key();
    auto signer = EntrySigner::from_pem(pem);
    ASSERT_TRUE(std::holds_alternative<EntrySigner>(signer)) << std::get<std::string>(signer);
    options_.sign = [key = std::get<EntrySigner>(signer)](std::string_view entry) {
        return key.sign(entry);
    };
    const std::string id = start_own_match();
    const auto match = open_match(id, nullptr);
    play(*match, 3, 20);
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
    engine.stop();
    for (const std::string& bytes : server_.record(wire::Uuid::from_text(id)->to_bytes())) {
        const std::string signature = server_.signature(bytes);
        EXPECT_LE(signature.size(), most_signature_bytes);
        EXPECT_TRUE(verifies(pem, bytes, signature));
        EXPECT_FALSE(verifies(pem, bytes + "x", signature));
    }
}

TEST_F(Signing, AKeyOfAnotherKindIsRefusedWithACure) {
    const auto wrong = EntrySigner::from_pem("no key at all");
    ASSERT_TRUE(std::holds_alternative<std::string>(wrong));
    EXPECT_NE(std::get<std::string>(wrong).find("enrol"), std::string::npos);
}

// Entries of another device keep its signature, so that they can be handed on after a restore.
TEST_F(Signing, EntriesThatCameBackAreHandedOnWithTheirDevicesSignature) {
    const std::string id = put_on_court();
    const std::string match_bytes = wire::Uuid::from_text(id)->to_bytes();
    std::vector<std::string> bytes;
    {
        const ScratchFolder folder;
        const auto other = open_journal(folder.path());
        Device device = device_;
        device.id = "01900000-0000-7000-a000-00000000000b";
        SyncEngine::Options options = options_;
        options.sign = [](std::string_view) { return std::string{"signed by b"}; };
        SyncEngine engine{*other, server_, device, options};
        engine.start();
        ASSERT_TRUE(eventually([&] { return engine.court_match() == id; }));
        auto opened = JournaledMatch::open(*other, device, id, {});
        play(*std::get<0>(opened), 4, 30);
        engine.wake();
        ASSERT_TRUE(eventually([&] { return other->waiting_count() == 0; }));
        engine.stop();
        bytes = server_.record(match_bytes);
    }
    server_.set_header("generation-one--", "1");
    options_.sign = [](std::string_view) { return std::string{"signed by this one"}; };
    options_.between_compared = 1ms;
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return journal_->last_seq(id) == bytes.size(); }));
    ASSERT_TRUE(eventually([&] { return !journal_->setting(compared_setting).empty(); }));
    // The database is lost, the spare device still has the record.
    server_.set_record(match_bytes, {});
    for (const std::string& entry : bytes) server_.sign_as(entry, "");
    server_.set_header("generation-two--", "1");
    server_.tell_change();
    ASSERT_TRUE(eventually([&] { return server_.record(match_bytes) == bytes; }));
    for (const std::string& entry : bytes) EXPECT_EQ(server_.signature(entry), "signed by b");
    engine.stop();
}

}  // namespace
}  // namespace courthand::client
