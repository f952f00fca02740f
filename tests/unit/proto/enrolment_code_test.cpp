// The code a person types at a new device.
#include "wire/enrolment_code.h"

#include <gtest/gtest.h>

#include <cctype>
#include <set>

#include "wire/protocol_version.h"

namespace courthand::wire {
namespace {

std::string complaint(std::string_view text) {
    const auto parsed = EnrolmentCode::parse(text);
    return std::holds_alternative<std::string>(parsed) ? std::get<std::string>(parsed) : "";
}

EnrolmentCode read(std::string_view text) {
    const auto parsed = EnrolmentCode::parse(text);
    if (const auto* why = std::get_if<std::string>(&parsed)) {
        ADD_FAILURE() << text << ": " << *why;
        return EnrolmentCode::make("00000000", "");
    }
    return std::get<EnrolmentCode>(parsed);
}

TEST(EnrolmentCode, SixGroupsOfFour) {
    const auto code = EnrolmentCode::make("012345AZ", "abc");
    const std::string text = code.to_text();
    EXPECT_EQ(text.size(), 29u);
    EXPECT_EQ(text.substr(0, 10), "0123 45AZ ");
    for (const std::size_t blank : {4u, 9u, 14u, 19u, 24u}) EXPECT_EQ(text[blank], ' ');
}

// SHA-256("abc") begins ba7816bf 8f01cfea 4141: 10111 01001 11100 00001 01101 01111 11100 01111 …
TEST(EnrolmentCode, TheFingerprintIsTheFirst80BitsOfTheCertificatesHash) {
    EXPECT_EQ(EnrolmentCode::make("00000000", "abc").fingerprint(), "Q9W1DFWF077YMGA1");
}

TEST(EnrolmentCode, FitsOneAuthorityOnly) {
    const auto code = EnrolmentCode::make("1234ABCD", "one authority");
    EXPECT_TRUE(code.fits("one authority"));
    EXPECT_FALSE(code.fits("another authority"));
    EXPECT_FALSE(code.fits(""));
}

TEST(EnrolmentCode, ReadHoweverItIsTyped) {
    const auto code = EnrolmentCode::make("9000AB1Z", "abc");
    const std::string plain = code.secret() + code.fingerprint();
    std::string small = plain;
    for (char& c : small) c = static_cast<char>(std::tolower(c));
    std::string hyphens = plain;
    for (const std::size_t at : {20u, 16u, 12u, 8u, 4u}) hyphens.insert(at, "-");
    for (const std::string& typed :
         {code.to_text(), plain, "  " + plain + "\r\n", small, hyphens, "\t" + hyphens})
        EXPECT_EQ(read(typed), code) << typed;
}

TEST(EnrolmentCode, LettersThatLookLikeDigitsAreReadAsThem) {
    const auto code = EnrolmentCode::make("10101010", "abc");
    const std::string rest = code.fingerprint();
    for (const char* secret : {"IOIOIOIO", "ioioioio", "LOLOLOLO", "l0iol0io"})
        EXPECT_EQ(read(secret + rest), code) << secret;
}

TEST(EnrolmentCode, SaysWhatIsWrongAndWhere) {
    EXPECT_NE(complaint("").find("No code"), std::string::npos);
    EXPECT_NE(complaint(" - ").find("No code"), std::string::npos);
    EXPECT_NE(complaint("1234 5678").find("has 8 characters; 24"), std::string::npos);
    EXPECT_NE(complaint("1234 5678 9012 3456 7890 123").find("has 23"), std::string::npos);
    EXPECT_NE(complaint("1234 5678 9012 3456 7890 1234 5").find("more than 24"), std::string::npos);
    for (const char* bad : {"1234 56u8 9012", "1234 56U8 9012", "1234-56*8"}) {
        const std::string words = complaint(bad);
        EXPECT_NE(words.find("Character 3 of group 2 (\""), std::string::npos) << words;
        EXPECT_NE(words.find("at the desk"), std::string::npos) << words;
    }
    // Outside ASCII the character is not shown by halves.
    EXPECT_NE(complaint("12\xC3\xA9").find("Character 3 of group 1 is used"), std::string::npos);
}

TEST(EnrolmentCode, ASecretIsEightSymbolsAndNothingElse) {
    EXPECT_TRUE(is_code_secret("0123ABCZ"));
    for (const char* bad :
         {"", "0123ABC", "0123ABCZ0", "0123abcz", "0123ABCU", "0123ABC ", "' or '1="})
        EXPECT_FALSE(is_code_secret(bad)) << bad;
}

// 40 bits: in 4,000 draws two the same come up once in 137,000 runs; of six digits, eight pairs a
// run.
TEST(EnrolmentCode, SecretsAreTooManyToTryOut) {
    std::set<std::string> secrets;
    std::set<char> seen;
    for (int i = 0; i < 4000; ++i) {
        const auto code = EnrolmentCode::make_random("abc");
        EXPECT_TRUE(is_code_secret(code.secret())) << code.secret();
        secrets.insert(code.secret());
        seen.insert(code.secret().begin(), code.secret().end());
    }
    EXPECT_EQ(secrets.size(), 4000u);
    EXPECT_EQ(seen.size(), 32u) << "every symbol comes up";
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
