// What is kept of an enrolment that was cut short, and what a start makes of it.
#include "client/enrol/begun_enrolment.h"

#include <gtest/gtest.h>
#include <openssl/bio.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509.h>

#include <memory>

#include "client/enrol/device_folder.h"
#include "tests/unit/client/journal_kit.h"

namespace courthand::client {
namespace {

template <class T>
using Owned = std::unique_ptr<T, void (*)(T*)>;

void free_memory(BIO* memory) {
    BIO_free(memory);
}

/// A certificate for that key, signed by itself.
std::string certificate_for(const std::string& key_pem) {
    const Owned<BIO> source{BIO_new_mem_buf(key_pem.data(), static_cast<int>(key_pem.size())),
                            free_memory};
    const Owned<EVP_PKEY> key{PEM_read_bio_PrivateKey(source.get(), nullptr, nullptr, nullptr),
                              EVP_PKEY_free};
    const Owned<X509> certificate{X509_new(), X509_free};
    const Owned<BIO> text{BIO_new(BIO_s_mem()), free_memory};
    ASN1_INTEGER_set(X509_get_serialNumber(certificate.get()), 1);
    X509_gmtime_adj(X509_getm_notBefore(certificate.get()), 0);
    X509_gmtime_adj(X509_getm_notAfter(certificate.get()), 3600);
    X509_set_pubkey(certificate.get(), key.get());
    EXPECT_GT(X509_sign(certificate.get(), key.get(), EVP_sha256()), 0);
    EXPECT_EQ(PEM_write_bio_X509(text.get(), certificate.get()), 1);
    char* data = nullptr;
    const long size = BIO_get_mem_data(text.get(), &data);
    return {data, static_cast<std::size_t>(size)};
}

class BegunEnrolment : public testing::Test {
  protected:
    void SetUp() override { journal_ = open_journal(folder_.path()); }
    /// The answer of the server came, and the program was ended.
    void answered(const std::string& certificate) {
        EnrolmentAnswer answer;
        answer.device.id = "01900000-0000-7000-a000-000000000004";
        answer.device.court = 4;
        answer.certificate = certificate;
        answer.authority = "another authority";
        ASSERT_FALSE(keep_answer(*journal_, answer));
    }
    /// The key with which this device asked; kept in its folder.
    [[nodiscard]] std::string asked() const {
        return std::get<SigningRequest>(EnrolmentKey{folder_.path()}.request()).key_pem;
    }
    /// Key and certificate of a device that works.
    Credentials in_use(const std::string& key) {
        Credentials credentials{key, certificate_for(key), "authority"};
        EXPECT_FALSE(save_credentials(folder_.path(), credentials));
        return credentials;
    }
    [[nodiscard]] static std::string new_key() { return make_signing_request()->key_pem; }

    ScratchFolder folder_;
    std::unique_ptr<Journal> journal_;
};

// A table in use was kept from opening by an enrolment anew that had come to nothing.
TEST_F(BegunEnrolment, ThatLostItsKeyKeepsNoDeviceFromItsWork) {
    answered(certificate_for(new_key()));
    const Credentials before = in_use(new_key());
    EXPECT_EQ(finish_enrolment(folder_.path(), *journal_), std::nullopt);
    EXPECT_EQ(std::get<Credentials>(load_credentials(folder_.path())).certificate,
              before.certificate);
    EXPECT_EQ(journal_->setting("device/id"), "") << "the device stays what it is";
    EXPECT_TRUE(journal_->settings("enrolling/").empty());
    EXPECT_FALSE(journal_->has_setting("enrolling/certificate")) << "nothing is left of it";
}

TEST_F(BegunEnrolment, ThatLostItsKeyIsToldWhereThereIsNoOther) {
    answered(certificate_for(new_key()));
    const auto wrong = finish_enrolment(folder_.path(), *journal_);
    ASSERT_TRUE(wrong);
    EXPECT_NE(wrong->find("enrol it anew"), std::string::npos) << *wrong;
}

TEST_F(BegunEnrolment, ThatIsFinishedLeavesNothingBehind) {
    const std::string key = asked();
    answered(certificate_for(key));
    EXPECT_EQ(finish_enrolment(folder_.path(), *journal_), std::nullopt);
    EXPECT_EQ(journal_->setting("device/court"), "4");
    EXPECT_FALSE(journal_->has_setting("enrolling/certificate"));
    EXPECT_FALSE(journal_->has_setting("enrolling/authority"));
    EXPECT_EQ(std::get<Credentials>(load_credentials(folder_.path())).key, key);
}

// It was made the device's, and no server took it for what it said it was.
TEST_F(BegunEnrolment, WhoseCertificateBelongsToAnotherKeyIsRefused) {
    const std::string key = asked();
    answered(certificate_for(new_key()));
    const auto wrong = finish_enrolment(folder_.path(), *journal_);
    ASSERT_TRUE(wrong);
    EXPECT_NE(wrong->find("another key"), std::string::npos) << *wrong;
    EXPECT_NE(wrong->find("courthand enrol --server"), std::string::npos) << "the cure: " << *wrong;
    EXPECT_EQ(journal_->setting("device/id"), "") << "it is nobody's device";
    EXPECT_TRUE(std::holds_alternative<std::string>(load_credentials(folder_.path())));
    EXPECT_EQ(finish_enrolment(folder_.path(), *journal_), std::nullopt)
        << "the next start is not held up by it";
    answered(certificate_for(key));
    EXPECT_EQ(finish_enrolment(folder_.path(), *journal_), std::nullopt);
    EXPECT_EQ(journal_->setting("device/court"), "4") << "and it can be tried again";
}

TEST_F(BegunEnrolment, WhoseCertificateIsRefusedLeavesADeviceInUseAsItWas) {
    const Credentials before = in_use(new_key());
    static_cast<void>(asked());
    answered(certificate_for(new_key()));
    EXPECT_TRUE(finish_enrolment(folder_.path(), *journal_));
    const auto now = std::get<Credentials>(load_credentials(folder_.path()));
    EXPECT_EQ(now.key, before.key);
    EXPECT_EQ(now.certificate, before.certificate);
}

// The key was written and the certificate not yet, and then the enrolment's own key was lost.
TEST_F(BegunEnrolment, AKeyWithTheCertificateOfAnotherIsNoDevice) {
    Credentials mixed = in_use(new_key());
    mixed.key = new_key();
    ASSERT_FALSE(save_credentials(folder_.path(), mixed));
    const auto read = load_credentials(folder_.path());
    ASSERT_TRUE(std::holds_alternative<std::string>(read));
    const auto& words = std::get<std::string>(read);
    EXPECT_NE(words.find("do not belong together"), std::string::npos) << words;
    EXPECT_NE(words.find(folder_.path().string()), std::string::npos) << words;
    answered(certificate_for(new_key()));
    EXPECT_TRUE(finish_enrolment(folder_.path(), *journal_)) << "nor does it go on as one";
}

}  // namespace
}  // namespace courthand::client
