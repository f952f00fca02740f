// A person's name on its whole way: from the desk's list to the database and to the table of a
// court, and out of both again, over a real server.
#include <fmt/format.h>
#include <grpcpp/channel.h>
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <fstream>
#include <iterator>

#include "client/enrol/device_folder.h"
#include "client/sync/channel.h"
#include "courthand/v1/desk.grpc.pb.h"
#include "tests/integration/client/venue_kit.h"
#include "wire/protocol_version.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

constexpr const char* name = "Robin Quaysworth";

std::string content_of(const std::filesystem::path& file) {
    std::ifstream in{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

std::string hex_of(const std::string& words) {
    std::string hex;
    for (const char c : words) hex += fmt::format("{:02x}", static_cast<unsigned char>(c));
    return hex;
}

class NameOnItsWay : public testing::Test {
  protected:
    void SetUp() override {
        desk_ = v1::Desk::NewStub(make_channel(
            venue_.host().address(),
            std::get<Credentials>(load_credentials(venue_.enrol_seat("desk", "desk")))));
    }
    template <class Request, class Response>
    Response asked(grpc::Status (v1::Desk::Stub::*method)(grpc::ClientContext*, const Request&,
                                                          Response*),
                   const Request& request) {
        Response response;
        grpc::ClientContext context;
        prepare_context(context, wire::protocol_version);
        const grpc::Status status = (*desk_.*method)(&context, request, &response);
        EXPECT_TRUE(status.ok()) << status.error_message();
        return response;
    }
    /// A match of two teams on court 1, one of whose players has a name on the desk's list.
    void plan_match() {
        std::string csv = fmt::format("team,number,name\nQuayside,1,{}\n", name);
        for (int number = 2; number <= 12; ++number) csv += fmt::format("Quayside,{},\n", number);
        for (int number = 1; number <= 12; ++number) csv += fmt::format("Saltmarsh,{},\n", number);
        v1::ImportRosterRequest list;
        list.set_csv(csv);
        const auto read = asked(&v1::Desk::Stub::ImportRoster, list);
        ASSERT_TRUE(read.kept());
        v1::CreateMatchRequest match;
        match.set_first_team_id(read.teams(0).team_id());
        match.set_second_team_id(read.teams(1).team_id());
        match.set_court(1);
        match.set_profile_id("international-2025");
        match.set_match_id(wire::UuidMaker::of_system().next().to_bytes());
        (void)asked(&v1::Desk::Stub::CreateMatch, match);
    }
    /// Everything that the database has.
    std::string dump() const {
        const std::string command = "pg_dump --inserts '" + venue_.database().dsn() + "'";
        std::FILE* const pipe = popen(command.c_str(), "r");
        std::string text;
        std::array<char, 65536> buffer;
        while (const std::size_t size = std::fread(buffer.data(), 1, buffer.size(), pipe))
            text.append(buffer.data(), size);
        EXPECT_EQ(pclose(pipe), 0);
        return text;
    }
    bool in_database() const {
        const std::string text = dump();
        return text.find(name) != std::string::npos || text.find(hex_of(name)) != std::string::npos;
    }
    bool on_device(const std::filesystem::path& folder) const {
        for (const auto& entry : std::filesystem::recursive_directory_iterator{folder})
            if (entry.is_regular_file() && content_of(entry.path()).find(name) != std::string::npos)
                return true;
        return false;
    }
    /// The server has heard of it when this returns.
    void erase_name() {
        const auto result = server::testing::run_server_command(
            {"erase", "--database", venue_.database().dsn(), "--person", "1"});
        ASSERT_EQ(result.exit_code, 0) << result.output;
        ASSERT_TRUE(eventually([&] {
            const auto lists = asked(&v1::Desk::Stub::ListTeams, v1::ListTeamsRequest{});
            return lists.DebugString().find(name) == std::string::npos;
        }));
    }

    Venue venue_{{"--name-days", "0"}};
    std::unique_ptr<v1::Desk::Stub> desk_;
};

TEST_F(NameOnItsWay, IsErasedFromDatabaseAndTableAndTheRecordStays) {
    plan_match();
    const auto folder = venue_.enrol_table("table-1", 1);
    std::string id;
    std::vector<std::string> bytes;
    {
        const auto table = open_table(folder);
        ASSERT_NE(table, nullptr);
        ASSERT_TRUE(eventually([&] { return !(id = table->next_match()).empty(); }));
        auto opened = table->open_match(id);
        ASSERT_TRUE(std::holds_alternative<std::unique_ptr<JournaledMatch>>(opened));
        JournaledMatch& match = *std::get<0>(opened);
        EXPECT_EQ(match.sheet().players[Team::A].front().name, name);
        Roster roster;
        roster.team = Team::A;
        roster.count = 12;
        for (std::uint8_t i = 0; i < 12; ++i)
            roster.players[i] = Jersey{static_cast<std::uint8_t>(i + 1)};
        ASSERT_FALSE(match.record(Fact{roster}, {}).error);
        ASSERT_TRUE(eventually([&] { return table->all_sent(); }));
        bytes = bytes_of_journal(table->journal(), id);
    }
    ASSERT_TRUE(in_database());
    ASSERT_TRUE(on_device(folder));
    ASSERT_FALSE(bytes.empty());
    for (const std::string& entry : bytes) EXPECT_EQ(entry.find("Robin"), std::string::npos);

    erase_name();
    EXPECT_FALSE(in_database());
    EXPECT_TRUE(on_device(folder));

    const auto table = open_table(folder);
    ASSERT_NE(table, nullptr);
    EXPECT_TRUE(eventually([&] { return !on_device(folder); }));
    EXPECT_EQ(venue_.record(folder, id), bytes);
    EXPECT_EQ(venue_.host().log().find("Robin"), std::string::npos);
}

}  // namespace
}  // namespace courthand::client
