// TLS 1.3 and nothing older, on both sides, judged by the openssl command.
#include <gtest/gtest.h>

#include <grpcpp/channel.h>

#include <chrono>
#include <cstdio>
#include <sstream>

#include <fmt/format.h>

#include "client/enrol/device_folder.h"
#include "client/enrol/server_chain.h"
#include "client/sync/channel.h"
#include "tests/integration/client/venue_kit.h"
#include "wire/tls_floor.h"

namespace courthand::client {
namespace {

// As the programs do first in `main`.
const bool floor_set = (wire::require_tls_1_3(), true);

struct Told {
    int exit_code = 0;
    std::string words;
};

/// A command to its end, within half a minute.
class Command {
  public:
    explicit Command(const std::string& words)
        : pipe_{popen(("timeout 30 " + words + " 2>&1").c_str(), "r")} {}
    Command(const Command&) = delete;
    Command& operator=(const Command&) = delete;
    ~Command() {
        if (pipe_ != nullptr) pclose(pipe_);
    }
    bool says(const std::string& part) {
        while (told_.words.find(part) == std::string::npos) {
            const int c = std::fgetc(pipe_);
            if (c == EOF) return false;
            told_.words.push_back(static_cast<char>(c));
        }
        return true;
    }
    Told end() {
        for (int c = std::fgetc(pipe_); c != EOF; c = std::fgetc(pipe_))
            told_.words.push_back(static_cast<char>(c));
        told_.exit_code = pclose(pipe_);
        pipe_ = nullptr;
        return told_;
    }

  private:
    FILE* pipe_;
    Told told_;
};

class Tls : public testing::Test {
  protected:
    Told call_server(const std::string& how) {
        Command command{fmt::format(
            "openssl s_client -connect {} -alpn h2 -verify_return_error -CAfile {} {} </dev/null",
            venue_.host().address(), authority_file("authority.crt"), how)};
        return command.end();
    }
    /// A server with the venue's own certificate that takes one connection.
    std::string false_server(std::uint16_t port, const std::string& version) {
        return fmt::format(
            "openssl s_server -accept 127.0.0.1:{} -naccept 1 -rev -alpn h2 -cert {} -cert_chain "
            "{} "
            "-key {} {} </dev/null",
            port, authority_file("server.crt"), authority_file("authority.crt"),
            authority_file("server.key"), version);
    }
    std::string authority_file(const char* name) {
        return venue_.host().data() / "authority" / name;
    }
    Venue venue_;
};

TEST_F(Tls, TheServerTakesTls13) {
    const Told told = call_server("-tls1_3");
    EXPECT_EQ(told.exit_code, 0) << told.words;
    EXPECT_NE(told.words.find("New, TLSv1.3"), std::string::npos) << told.words;
    EXPECT_NE(told.words.find("Verify return code: 0 (ok)"), std::string::npos) << told.words;
}

TEST_F(Tls, TheServerTakesNothingOlder) {
    for (const char* how : {"-tls1_2", "-tls1_2 -cipher ALL:@SECLEVEL=0",
                            "-tls1_2 -psk 00112233445566778899aabbccddeeff -cipher PSK",
                            "-tls1_1 -cipher ALL:@SECLEVEL=0", "-no_tls1_3"}) {
        const Told told = call_server(how);
        EXPECT_NE(told.exit_code, 0) << how << "\n" << told.words;
        EXPECT_NE(told.words.find("Cipher is (NONE)"), std::string::npos) << how << told.words;
    }
    EXPECT_EQ(call_server("-tls1_3").exit_code, 0) << "it was there all the time";
}

TEST_F(Tls, AnEnrollingDeviceTurnsAwayFromAnOlderServer) {
    const std::uint16_t port = server::testing::free_port();
    Command older{false_server(port, "-tls1_2")};
    ASSERT_TRUE(older.says("ACCEPT")) << older.end().words;
    const auto chain = server_chain(fmt::format("127.0.0.1:{}", port));
    ASSERT_TRUE(std::holds_alternative<std::string>(chain));
    EXPECT_NE(std::get<std::string>(chain).find("does not speak TLS 1.3"), std::string::npos)
        << std::get<std::string>(chain);
}

TEST_F(Tls, AnEnrolledDeviceTalksTls13ToTheVenuesCertificateOnly) {
    const auto folder = venue_.enrol_table("table", 1);
    const auto credentials = std::get<Credentials>(load_credentials(folder));
    const auto told_by = [&](const std::string& version) {
        const std::uint16_t port = server::testing::free_port();
        Command server{false_server(port, version)};
        EXPECT_TRUE(server.says("ACCEPT"));
        {
            const auto channel = make_channel(fmt::format("127.0.0.1:{}", port), credentials);
            // It never becomes ready: what answers speaks no HTTP.
            EXPECT_FALSE(channel->WaitForConnected(std::chrono::system_clock::now() +
                                                   std::chrono::seconds{2}));
        }
        return server.end().words;
    };
    const std::string newest = told_by("-tls1_3");
    EXPECT_NE(newest.find("Protocol version: TLSv1.3"), std::string::npos) << newest;
    const std::string older = told_by("-tls1_2");
    EXPECT_EQ(older.find("Protocol version"), std::string::npos) << older;
    EXPECT_NE(older.find("no shared cipher"), std::string::npos) << older;
}

}  // namespace
}  // namespace courthand::client
