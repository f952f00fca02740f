// The code a person types at a new device.
#include "wire/enrolment_code.h"

#include <gtest/gtest.h>

#include <set>

#include "wire/protocol_version.h"

namespace courthand::wire {
namespace {

std::string complaint(std::string_view text) {
    const auto parsed = EnrolmentCode::parse(text);
    return std::holds_alternative<std::string>(parsed) ? std::get<std::string>(parsed) : "";
}

TEST(EnrolmentCode, FiveGroupsOfFour) {
    const auto code = EnrolmentCode::make("012345", "abc");
    const std::string text = code.to_text();
    EXPECT_EQ(text.size(), 24u);
    EXPECT_EQ(text.substr(0, 7), "0123 45");
    for (const std::size_t blank : {4u, 9u, 14u, 19u}) EXPECT_EQ(text[blank], ' ');
}

// SHA-256("abc") begins ba7816bf8f01cfea = 13436514500253700074; its last fourteen digits.
TEST(EnrolmentCode, TheFingerprintComesFromTheCertificate) {
    EXPECT_EQ(EnrolmentCode::make("000000", "abc").fingerprint(), "14500253700074");
}

TEST(EnrolmentCode, FitsOneAuthorityOnly) {
    const auto code = EnrolmentCode::make("123456", "one authority");
    EXPECT_TRUE(code.fits("one authority"));
    EXPECT_FALSE(code.fits("another authority"));
    EXPECT_FALSE(code.fits(""));
}

TEST(EnrolmentCode, ReadHoweverItIsTyped) {
    const auto code = EnrolmentCode::make("900017", "abc");
    std::string plain = code.secret() + code.fingerprint();
    for (const std::string& typed :
         {code.to_text(), plain, "  " + plain + "\r\n", plain.insert(6, "-"), plain}) {
        const auto parsed = EnrolmentCode::parse(typed);
        ASSERT_TRUE(std::holds_alternative<EnrolmentCode>(parsed)) << typed;
        EXPECT_EQ(std::get<EnrolmentCode>(parsed), code);
    }
}

TEST(EnrolmentCode, SaysWhatIsWrong) {
    EXPECT_NE(complaint("").find("No code"), std::string::npos);
    EXPECT_NE(complaint(" - ").find("No code"), std::string::npos);
    EXPECT_NE(complaint("1234 5678").find("has 8 digits; 20"), std::string::npos);
    EXPECT_NE(complaint("1234 5678 9012 3456 789").find("has 19"), std::string::npos);
    EXPECT_NE(complaint("1234 5678 9012 3456 7890 1").find("more than 20"), std::string::npos);
    EXPECT_NE(complaint("1234 567O 9012 3456 7890").find("Character 9"), std::string::npos);
}

TEST(EnrolmentCode, SecretsDiffer) {
    std::set<std::string> secrets;
    for (int i = 0; i < 200; ++i) {
        const auto code = EnrolmentCode::make_random("abc");
        EXPECT_EQ(code.secret().size(), secret_digits);
        secrets.insert(code.secret());
    }
    EXPECT_GT(secrets.size(), 190u);
}

TEST(EnrolmentCode, NoCertificateInThePem) {
    EXPECT_FALSE(certificate_der("").has_value());
    EXPECT_FALSE(certificate_der("-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n")
                     .has_value());
}

TEST(ProtocolVersion, OldAndPresentClientsAreServed) {
    for (std::uint32_t version = 1; version <= protocol_version; ++version)
        EXPECT_FALSE(protocol_refusal(std::to_string(version)).has_value());
}

TEST(ProtocolVersion, ANewerClientGetsAPlainSentence) {
    const auto refusal = protocol_refusal(std::to_string(protocol_version + 1));
    ASSERT_TRUE(refusal.has_value());
    EXPECT_NE(refusal->find("Update the server"), std::string::npos);
}

TEST(ProtocolVersion, NoOrBadNumber) {
    for (const char* text : {"", "0", "one", "1x", "-1", "99999999999999999999"})
        EXPECT_TRUE(protocol_refusal(text).has_value()) << text;
}

}  // namespace
}  // namespace courthand::wire
