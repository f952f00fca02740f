// Authority, enrolment, revocation and roles, without network and database.
#include <gtest/gtest.h>
#include <openssl/pem.h>
#include <sys/stat.h>

#include <atomic>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <thread>

#include "courthand/v1/desk.pb.h"
#include "courthand/v1/enrolment.pb.h"
#include "courthand/v1/sync.pb.h"
#include "courthand/v1/venue.pb.h"
#include "server/auth/authority.h"
#include "server/auth/call_gate.h"
#include "server/auth/certificates.h"
#include "server/auth/enrolment.h"
#include "server/auth/entry_signature.h"
#include "server/auth/roles.h"
#include "server/store/status.h"
#include "server/testing/or_throw.h"
#include "tests/testkit/eventually.h"
#include "tests/testkit/scratch_folder.h"
#include "tests/testkit/told_faults.h"
#include "wire/message_limits.h"

namespace courthand::server::auth {
namespace {

using testkit::eventually;

namespace fs = std::filesystem;
using std::chrono::hours;
using std::chrono::minutes;

// A fixed morning: nothing here reads a clock.
const Instant morning = std::chrono::sys_days{std::chrono::year{2031} / 5 / 17} + hours{8};

std::string request_pem(EVP_PKEY& key) {
    const RequestHandle request{X509_REQ_new()};
    X509_REQ_set_pubkey(request.get(), &key);
    X509_REQ_sign(request.get(), &key, EVP_sha256());
    const BioHandle out{BIO_new(BIO_s_mem())};
    PEM_write_bio_X509_REQ(out.get(), request.get());
    char* text = nullptr;
    const long size = BIO_get_mem_data(out.get(), &text);
    return {text, static_cast<std::size_t>(size)};
}

unsigned mode_of(const fs::path& path) {
    struct stat info {};
    EXPECT_EQ(::stat(path.c_str(), &info), 0) << path;
    return info.st_mode & 0777U;
}

class AuthTest : public ::testing::Test {
  protected:
    Authority open(Instant now = morning) {
        return value_or_throw(Authority::open(root / "authority", now));
    }

    /// The secret of a fresh code.
    std::string secret_of(const Authority& authority, CodeWish wish, Instant now = morning) {
        const auto issued = value_or_throw(issue_code(*store, authority, wish, now));
        const auto code = wire::EnrolmentCode::parse(issued.text);
        return std::get<wire::EnrolmentCode>(code).secret();
    }

    Result<Enrolled> enrol_with(const Authority& authority, const std::string& secret,
                                Instant now = morning) {
        return enrol(*store, authority, {secret, request, "tablet 3"}, now);
    }

    static std::string wrong(std::string secret) {
        secret.back() = secret.back() == '9' ? '8' : '9';
        return secret;
    }

    /// Code and message of a refusal, which names a cure.
    static std::pair<StatusCode, std::string> refusal_in(const Result<Enrolled>& answer) {
        const Status status = answer.status();
        EXPECT_FALSE(status.ok());
        EXPECT_FALSE(status.cure.empty()) << status.message;
        return {status.code, status.message};
    }

    testkit::ScratchFolder scratch;
    const fs::path root = scratch.path();
    std::unique_ptr<EnrolmentStore> store = make_memory_enrolment_store();
    KeyHandle device_key = new_key();
    std::string request = request_pem(*device_key);
    CodeWish table{Seat::table, 3};
};

using Refused = std::pair<StatusCode, std::string>;
const Refused wrong_code{StatusCode::not_allowed, "no such enrolment code"};
const Refused used_code{StatusCode::not_allowed, "this code has been used"};
const Refused expired_code{StatusCode::not_allowed, "this code has expired"};
const Refused revoked_device{StatusCode::not_enrolled, "the desk has withdrawn this device"};

TEST_F(AuthTest, TheAuthorityIsMadeOnceAndItsKeyIsSecret) {
    const std::string first = open().certificate_pem();
    EXPECT_EQ(open(morning + hours{24}).certificate_pem(), first);
    EXPECT_EQ(mode_of(root / "authority"), 0700U);
    EXPECT_EQ(mode_of(root / "authority" / "authority.key"), 0600U);
}

TEST_F(AuthTest, ADamagedAuthorityIsNotReplaced) {
    (void)open();
    std::ofstream{root / "authority" / "authority.key"} << "spoilt";
    const auto opened = Authority::open(root / "authority", morning);
    ASSERT_FALSE(opened.ok());
    EXPECT_NE(opened.status().cure.find("backup"), std::string::npos);
}

TEST_F(AuthTest, AFolderThatCannotBeWrittenIsSaid) {
    std::ofstream{root / "authority"} << "a file stands where the folder should be";
    const auto opened = Authority::open(root / "authority", morning);
    ASSERT_FALSE(opened.ok());
    EXPECT_NE(opened.status().message.find("authority"), std::string::npos);
}

TEST_F(AuthTest, TheServerCertificateNamesItsHostsAndIsSignedByTheAuthority) {
    const Authority authority = open();
    const std::vector<std::string> names{"desk.example", "192.0.2.7"};
    const auto identity = value_or_throw(authority.server_identity(names, morning));
    const auto certificate = read_certificate(identity.cert_chain_pem);
    const auto issuer = read_certificate(identity.authority_pem);
    ASSERT_TRUE(certificate && issuer);
    EXPECT_EQ(X509_verify(certificate.get(), X509_get0_pubkey(issuer.get())), 1);
    for (const char* host : {"localhost", "desk.example"})
        EXPECT_EQ(X509_check_host(certificate.get(), host, 0, 0, nullptr), 1) << host;
    for (const char* address : {"127.0.0.1", "::1", "192.0.2.7"})
        EXPECT_EQ(X509_check_ip_asc(certificate.get(), address, 0), 1) << address;
    EXPECT_NE(identity.cert_chain_pem.find(identity.authority_pem), std::string::npos);
}

TEST_F(AuthTest, TheServerCertificateIsKeptUntilItIsNearItsEndOrANameIsMissing) {
    const Authority authority = open();
    const auto chain = [&](std::vector<std::string> names, Instant now) {
        return value_or_throw(authority.server_identity(names, now)).cert_chain_pem;
    };
    const std::string first = chain({}, morning);
    EXPECT_EQ(chain({}, morning + hours{24 * 300}), first);
    const std::string renewed = chain({}, morning + Authority::server_lasts - hours{24});
    EXPECT_NE(renewed, first);
    EXPECT_NE(chain({"desk.example"}, morning + Authority::server_lasts - hours{24}), renewed);
}

TEST_F(AuthTest, ANameThatIsNoHostNameIsLeftOut) {
    const Authority authority = open();
    const std::vector<std::string> names{"evil,DNS:other.example"};
    const auto identity = value_or_throw(authority.server_identity(names, morning));
    const auto certificate = read_certificate(identity.cert_chain_pem);
    ASSERT_TRUE(certificate);
    EXPECT_NE(X509_check_host(certificate.get(), "other.example", 0, 0, nullptr), 1);
}

TEST_F(AuthTest, ARightCodeGivesACertificateBoundToSeatAndCourt) {
    const Authority authority = open();
    const auto answer = enrol_with(authority, secret_of(authority, table));
    ASSERT_TRUE(answer.ok()) << answer.status().text();
    const Enrolled& enrolled = *answer;
    EXPECT_EQ(enrolled.who.seat, Seat::table);
    EXPECT_EQ(enrolled.who.court, 3U);
    EXPECT_EQ(enrolled.authority_pem, authority.certificate_pem());
    const auto certificate = read_certificate(enrolled.certificate_pem);
    ASSERT_TRUE(certificate);
    EXPECT_EQ(EVP_PKEY_eq(X509_get0_pubkey(certificate.get()), device_key.get()), 1);
    const auto issuer = read_certificate(authority.certificate_pem());
    EXPECT_EQ(X509_verify(certificate.get(), X509_get0_pubkey(issuer.get())), 1);
    ASSERT_EQ(store->devices()->size(), 1U);
    EXPECT_EQ(store->devices()->front().name, "tablet 3");
}

TEST_F(AuthTest, ACodeIsGoodOnce) {
    const Authority authority = open();
    const std::string secret = secret_of(authority, table);
    ASSERT_TRUE(enrol_with(authority, secret).ok());
    request = request_pem(*new_key());
    EXPECT_EQ(refusal_in(enrol_with(authority, secret)), used_code);
}

TEST_F(AuthTest, ACodeExpires) {
    const Authority authority = open();
    const std::string secret = secret_of(authority, table);
    EXPECT_EQ(refusal_in(enrol_with(authority, secret, morning + code_lives)), expired_code);
}

TEST_F(AuthTest, WrongTriesCostNobodysCode) {
    const Authority authority = open();
    const std::string secret = secret_of(authority, table);
    for (int i = 0; i < 200; ++i)
        EXPECT_EQ(refusal_in(enrol_with(authority, wrong(secret))), wrong_code);
    EXPECT_TRUE(enrol_with(authority, secret).ok());
}

TEST_F(AuthTest, ALostAnswerIsGivenAgainForTheSameKey) {
    const Authority authority = open();
    const std::string secret = secret_of(authority, table);
    const auto first = value_or_throw(enrol_with(authority, secret));
    // A request is signed anew each time; the key is what counts.
    request = request_pem(*device_key);
    const auto again = enrol_with(authority, secret, morning + minutes{5});
    ASSERT_TRUE(again.ok()) << again.status().text();
    EXPECT_EQ(again->who, first.who);
    EXPECT_EQ(store->devices()->size(), 1U) << "it is the same device";
    const auto certificate = read_certificate(again->certificate_pem);
    ASSERT_TRUE(certificate);
    EXPECT_EQ(EVP_PKEY_eq(X509_get0_pubkey(certificate.get()), device_key.get()), 1);
}

TEST_F(AuthTest, AUsedCodeIsGoodForNoOtherKeyAndNotForEver) {
    const Authority authority = open();
    const std::string secret = secret_of(authority, table);
    const auto first = value_or_throw(enrol_with(authority, secret));
    EXPECT_EQ(refusal_in(enrol_with(authority, secret, morning + code_lives)), expired_code);
    const std::string own = request;
    request = request_pem(*new_key());
    EXPECT_EQ(refusal_in(enrol_with(authority, secret)), used_code);
    request = own;
    ASSERT_TRUE(*store->revoke(first.who.device, morning));
    EXPECT_EQ(refusal_in(enrol_with(authority, secret)), revoked_device);
}

TEST_F(AuthTest, ThePublicKeyOfADeviceIsKept) {
    const Authority authority = open();
    const auto enrolled = value_or_throw(enrol_with(authority, secret_of(authority, table)));
    const auto device = *store->device(enrolled.who.device);
    ASSERT_TRUE(device);
    const auto* der = reinterpret_cast<const unsigned char*>(device->key.data());
    const KeyHandle kept{d2i_PUBKEY(nullptr, &der, static_cast<long>(device->key.size()))};
    ASSERT_TRUE(kept);
    EXPECT_EQ(EVP_PKEY_eq(kept.get(), device_key.get()), 1);
}

TEST_F(AuthTest, CodesThatWaitAreBoundedAndOldOnesForgotten) {
    const Authority authority = open();
    for (std::size_t i = 0; i < most_live_codes; ++i)
        throw_if_failed(store->add_code(
            {std::to_string(i), Seat::desk, 0, morning + minutes{1}, {}, {}}, morning));
    const auto refused = issue_code(*store, authority, table, morning);
    ASSERT_FALSE(refused.ok());
    EXPECT_FALSE(refused.status().cure.empty());
    const auto later = morning + minutes{2} + expired_codes_kept;
    EXPECT_TRUE(issue_code(*store, authority, table, later).ok());
    EXPECT_FALSE(*store->code("0")) << "expired long ago, never used";
}

TEST_F(AuthTest, ANonsenseCodeIsRefused) {
    const Authority authority = open();
    for (const char* text : {"", "12345", "123456789", "1234567u", "' or '1="})
        EXPECT_EQ(refusal_in(enrol_with(authority, text)), wrong_code) << text;
}

TEST_F(AuthTest, AnUnreadableRequestDoesNotCostTheCode) {
    const Authority authority = open();
    const std::string secret = secret_of(authority, table);
    for (const std::string& bad : {std::string{}, std::string{"nonsense"}, std::string(20000, 'x'),
                                   request.substr(0, 200)}) {
        const auto answer = enrol(*store, authority, {secret, bad, "tablet"}, morning);
        EXPECT_EQ(refusal_in(answer).first, StatusCode::invalid);
    }
    EXPECT_TRUE(enrol_with(authority, secret).ok());
}

TEST_F(AuthTest, ARequestWithAnotherKindOfKeyIsRefused) {
    const Authority authority = open();
    const KeyHandle key{EVP_EC_gen("P-384")};
    const auto answer =
        enrol(*store, authority, {secret_of(authority, table), request_pem(*key), "x"}, morning);
    EXPECT_EQ(refusal_in(answer).first, StatusCode::invalid);
}

TEST_F(AuthTest, ImpossibleCodesAreNotIssued) {
    const Authority authority = open();
    for (const CodeWish& wish :
         {CodeWish{Seat::table, 0}, CodeWish{Seat::table, most_courts + 1}, CodeWish{Seat::head, 1},
          CodeWish{Seat::desk, 0, minutes{0}}, CodeWish{Seat::desk, 0, minutes{1441}}})
        EXPECT_FALSE(issue_code(*store, authority, wish, morning).ok());
}

TEST_F(AuthTest, TheStoreNeverSeesTheSecret) {
    const Authority authority = open();
    const std::string secret = secret_of(authority, table);
    const auto code = *store->code(authority.seal(secret));
    ASSERT_TRUE(code);
    EXPECT_EQ(code->hash.find(secret), std::string::npos);
    EXPECT_EQ(code->hash.size(), 64U);
}

TEST_F(AuthTest, ARevokedDeviceIsTurnedAwayAtOnce) {
    const Authority authority = open();
    const auto enrolled = value_or_throw(enrol_with(authority, secret_of(authority, table)));
    DeviceRegister devices{*store};
    const char* push = "/courthand.v1.Sync/Push";
    EXPECT_TRUE(check_call(enrolled.who, push, devices).ok());
    ASSERT_TRUE(*devices.revoke(enrolled.who.device, morning));
    const Status refusal = check_call(enrolled.who, push, devices);
    EXPECT_EQ((Refused{refusal.code, refusal.message}), revoked_device);
    EXPECT_TRUE(devices.revoked_here(enrolled.who.device));
    EXPECT_FALSE(*devices.revoke(DeviceId{new_uuid()}, morning));
}

TEST_F(AuthTest, ARevocationByAnotherServerIsSeenAtTheNextLook) {
    const Authority authority = open();
    const auto enrolled = value_or_throw(enrol_with(authority, secret_of(authority, table)));
    DeviceRegister here{*store};
    EXPECT_EQ(*here.standing(enrolled.who.device), DeviceStanding::good);
    ASSERT_TRUE(*store->revoke(enrolled.who.device, morning));
    ASSERT_TRUE(here.look().ok());
    EXPECT_EQ(*here.standing(enrolled.who.device), DeviceStanding::revoked);
    EXPECT_TRUE(here.revoked_here(enrolled.who.device));
}

TEST_F(AuthTest, ARevocationIsToldOnceToWhoWatches) {
    const Authority authority = open();
    const auto enrolled = value_or_throw(enrol_with(authority, secret_of(authority, table)));
    std::atomic<int> told = 0;
    {
        DeviceRegister here{*store};
        here.watch([&](DeviceId device) { told += device == enrolled.who.device ? 1 : 100; });
        ASSERT_TRUE(*store->revoke(enrolled.who.device, morning));
        EXPECT_TRUE(eventually([&] { return told > 0; }));
        EXPECT_TRUE(*here.revoke(enrolled.who.device, morning));
        ASSERT_TRUE(here.look().ok());
    }
    EXPECT_EQ(told, 1);
}

/// A store that counts, and that stands still while it is told to.
class SlowStore final : public EnrolmentStore {
  public:
    explicit SlowStore(EnrolmentStore& store) : store_{store} {}
    Status add_code(const StoredCode& code, Instant now) override {
        return store_.add_code(code, now);
    }
    Result<std::size_t> live_codes(Instant now) override { return store_.live_codes(now); }
    Result<std::optional<StoredCode>> code(const std::string& hash) override {
        return store_.code(hash);
    }
    Result<bool> use_code(const std::string& hash, const Device& device, Instant now) override {
        return store_.use_code(hash, device, now);
    }
    Result<std::optional<Device>> device(DeviceId device) override {
        ++asked;
        const int now = ++inside;
        if (now > most_inside) most_inside = now;
        while (stalled) std::this_thread::sleep_for(std::chrono::milliseconds{1});
        --inside;
        return store_.device(device);
    }
    Result<std::vector<Device>> devices() override { return store_.devices(); }
    Result<bool> revoke(DeviceId device, Instant now) override {
        return store_.revoke(device, now);
    }
    Result<std::vector<DeviceId>> revoked_devices() override { return store_.revoked_devices(); }

    std::atomic<int> asked = 0;
    std::atomic<int> inside = 0;
    std::atomic<int> most_inside = 0;
    std::atomic<bool> stalled = false;

  private:
    EnrolmentStore& store_;
};

TEST_F(AuthTest, AKnownDeviceCostsNoWayToTheStore) {
    const Authority authority = open();
    const auto enrolled = value_or_throw(enrol_with(authority, secret_of(authority, table)));
    SlowStore counted{*store};
    DeviceRegister devices{counted};
    for (int i = 0; i < 100; ++i)
        EXPECT_EQ(*devices.standing(enrolled.who.device), DeviceStanding::good);
    EXPECT_EQ(*devices.key_of(enrolled.who.device), public_key_of(enrolled.certificate_pem));
    EXPECT_EQ(counted.asked, 1);
}

TEST_F(AuthTest, AClockThatStepsBackFreezesNothing) {
    SteadyTime now{};
    DeviceRegister devices{*store, [&] { return now; }};
    const Device late{{DeviceId{new_uuid()}, Seat::table, 3}, "tablet", morning, {}, {}};
    EXPECT_EQ(*devices.standing(late.who.device), DeviceStanding::unknown);
    StoredCode code;
    code.hash = "h";
    code.expires = morning + hours{1};
    ASSERT_TRUE(store->add_code(code, morning).ok());
    ASSERT_TRUE(*store->use_code("h", late, morning));
    EXPECT_EQ(*devices.standing(late.who.device), DeviceStanding::unknown) << "asked a moment ago";
    now += DeviceRegister::unknown_lasts;
    EXPECT_EQ(*devices.standing(late.who.device), DeviceStanding::good);
    // The wall clock has no part in it: revoked is revoked, whatever time the server thinks it is.
    ASSERT_TRUE(*devices.revoke(late.who.device, morning - hours{24}));
    EXPECT_EQ(*devices.standing(late.who.device), DeviceStanding::revoked);
}

TEST_F(AuthTest, AStoreThatStandsStillHoldsAFewThreadsOnlyAndTheOthersAreToldToComeBack) {
    SlowStore slow{*store};
    DeviceRegister devices{slow};
    slow.stalled = true;
    std::atomic<int> turned_away = 0;
    std::vector<std::thread> calls;
    for (int i = 0; i < 100; ++i)
        calls.emplace_back([&] {
            const Status asked = devices.standing(DeviceId{new_uuid()}).status();
            if (asked.code == StatusCode::exhausted && !asked.cure.empty()) ++turned_away;
        });
    constexpr int expected = 100 - static_cast<int>(DeviceRegister::most_lookups);
    EXPECT_TRUE(eventually([&] { return turned_away >= expected; }));
    EXPECT_EQ(turned_away, expected);
    slow.stalled = false;
    for (std::thread& call : calls) call.join();
    EXPECT_LE(slow.most_inside, static_cast<int>(DeviceRegister::most_lookups));
}

TEST_F(AuthTest, WhatThrowsAfterALookForRevocationsEndsNeitherServerNorLooks) {
    std::atomic<int> looks = 0;
    const testing::ToldFaults faults;
    {
        DeviceRegister devices{*store};
        devices.watch([](DeviceId) {},
                      [&] {
                          ++looks;
                          throw std::runtime_error{"no memory"};
                      });
        EXPECT_TRUE(eventually([&] { return looks >= 3; }));
    }
    EXPECT_EQ(faults.count(), 1U) << "said once";
}

TEST_F(AuthTest, ASignatureFitsItsBytesAndItsKeyOnly) {
    const Authority authority = open();
    const auto enrolled = value_or_throw(enrol_with(authority, secret_of(authority, table)));
    const std::string key = (*store->device(enrolled.who.device))->key;
    ASSERT_FALSE(key.empty());
    const std::string signature = signature_of(pem_of(*device_key), "an entry");
    ASSERT_FALSE(signature.empty());
    EXPECT_LE(signature.size(), wire::most_signature_bytes);
    EXPECT_TRUE(signed_by(key, "an entry", signature));
    EXPECT_FALSE(signed_by(key, "another entry", signature));
    const KeyHandle other = new_key();
    EXPECT_FALSE(signed_by(key, "an entry", signature_of(pem_of(*other), "an entry")));
    for (const std::string& bad :
         {std::string{}, std::string{"nonsense"}, std::string(80, '0'), signature.substr(0, 20)})
        EXPECT_FALSE(signed_by(key, "an entry", bad));
    EXPECT_FALSE(signed_by("", "an entry", signature));
    EXPECT_FALSE(signed_by("no key", "an entry", signature));
    EXPECT_TRUE(signature_of("no key", "an entry").empty());
}

TEST_F(AuthTest, EachSeatMayDoItsOwnWorkOnly) {
    DeviceRegister devices{*store};
    const auto may = [&](Seat seat, const char* method) {
        const auto* role = role_of(method);
        return role && allows(*role, seat);
    };
    EXPECT_TRUE(may(Seat::table, "/courthand.v1.Sync/Push"));
    EXPECT_FALSE(may(Seat::head, "/courthand.v1.Sync/Push"));
    EXPECT_TRUE(may(Seat::head, "/courthand.v1.Venue/Rule"));
    EXPECT_FALSE(may(Seat::table, "/courthand.v1.Venue/Rule"));
    EXPECT_FALSE(may(Seat::desk, "/courthand.v1.Venue/Rule"));
    EXPECT_TRUE(may(Seat::desk, "/courthand.v1.Desk/IssueCode"));
    EXPECT_FALSE(may(Seat::head, "/courthand.v1.Desk/IssueCode"));
    EXPECT_TRUE(check_call(std::nullopt, "/courthand.v1.Enrolment/Enrol", devices).ok());
    EXPECT_EQ(check_call(std::nullopt, "/courthand.v1.Sync/Push", devices).code,
              StatusCode::not_enrolled);
}

TEST(Roles, EveryCallOfEveryServiceHasARow) {
    using google::protobuf::FileDescriptor;
    for (const FileDescriptor* file :
         {v1::PushRequest::descriptor()->file(), v1::WatchBoardRequest::descriptor()->file(),
          v1::Device::descriptor()->file(), v1::EnrolRequest::descriptor()->file()}) {
        ASSERT_GT(file->service_count(), 0) << file->name();
        for (int i = 0; i < file->service_count(); ++i)
            for (int k = 0; k < file->service(i)->method_count(); ++k) {
                const std::string method =
                    "/" + file->service(i)->full_name() + "/" + file->service(i)->method(k)->name();
                EXPECT_NE(role_of(method), nullptr) << method;
            }
    }
}

TEST(Caller, TravelsInACertificateAndBack) {
    const Caller table{DeviceId{new_uuid()}, Seat::table, 12};
    EXPECT_EQ(caller_of_uri(uri_of(table)), table);
    const std::string good = uri_of(table);
    for (const std::string& bad : {std::string{}, std::string{"courthand:device/"}, good + "0000",
                                   good + "x", "other:" + good, good.substr(0, good.size() - 2)})
        EXPECT_FALSE(caller_of_uri(bad)) << bad;
}

}  // namespace
}  // namespace courthand::server::auth
