#include "tests/integration/client/venue_kit.h"

#include <gtest/gtest.h>

#include <chrono>
#include <cstdio>

#include <fmt/format.h>

#include "client/enrol/device_folder.h"
#include "courthand/rules/judge.h"
#include "courthand/script/script.h"
#include "courthand/sim/match_player.h"
#include "wire/enrolment_code.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

std::string output_of(const std::string& command) {
    std::string text;
    FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return text;
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe))
        text.push_back(static_cast<char>(c));
    pclose(pipe);
    return text;
}

}  // namespace

Venue::Venue() : Venue{{"--event", COURTHAND_FOUR_COURTS}} {}

Venue::Venue(std::vector<std::string> server_words) : database_{std::in_place} {
    dsn_ = database_->dsn();
    start(std::move(server_words));
}

Venue::Venue(InDatabase where) : dsn_{std::move(where.dsn)} {
    start({"--event", COURTHAND_FOUR_COURTS});
}

void Venue::start(std::vector<std::string> server_words) {
    server::testing::ServerOptions options;
    options.dsn = dsn_;
    options.more_words = std::move(server_words);
    server_ = std::make_unique<server::testing::ServerProcess>(options);
}

std::string Venue::code(const std::string& seat, int court, int minutes) const {
    std::string words =
        fmt::format("{} code --database '{}' --data '{}' --seat {} --minutes {}",
                    COURTHAND_SERVER_BINARY, dsn_, server_->data().string(), seat, minutes);
    if (court != 0) words += fmt::format(" --court {}", court);
    std::string symbols;
    for (const char c : output_of(words))
        if (c > ' ') symbols.push_back(c);
    EXPECT_EQ(symbols.size(), wire::code_symbols) << "the server gave no code";
    return symbols;
}

std::filesystem::path Venue::enrol_table(const std::string& name, int court) {
    EnrolmentWish wish;
    wish.server = server_->address();
    wish.code = code("table", court);
    wish.folder = folder(name);
    wish.name = name;
    const auto result = enrol(wish);
    if (const auto* wrong = std::get_if<std::string>(&result)) ADD_FAILURE() << *wrong;
    return wish.folder;
}

std::filesystem::path Venue::enrol_seat(const std::string& name, const std::string& seat) {
    EnrolmentWish wish;
    wish.server = server_->address();
    wish.code = code(seat, 0);
    wish.folder = folder(name);
    const auto result = enrol(wish);
    if (const auto* wrong = std::get_if<std::string>(&result)) ADD_FAILURE() << *wrong;
    return wish.folder;
}

std::vector<std::string> Venue::record(const std::filesystem::path& device,
                                       const std::string& match_id) const {
    const auto credentials = load_credentials(device);
    const auto courier =
        make_grpc_courier({server_->address(), std::get<Credentials>(credentials)});
    std::vector<std::string> bytes;
    for (;;) {
        v1::FetchMatchRequest request;
        request.set_match_id(wire::Uuid::from_text(match_id)->to_bytes());
        request.set_after_seq(static_cast<std::uint32_t>(bytes.size()));
        const auto result = courier->fetch(request);
        const auto* answer = std::get_if<v1::FetchMatchResponse>(&result);
        if (answer == nullptr) {
            ADD_FAILURE() << std::get<CallError>(result).message;
            return bytes;
        }
        for (const auto& entry : answer->entries()) bytes.push_back(entry.data());
        if (bytes.size() >= answer->head_seq() || answer->entries_size() == 0) return bytes;
    }
}

std::unique_ptr<TableStation> open_table(const std::filesystem::path& folder,
                                         const std::string& server) {
    TableStation::Options options;
    options.folder = folder;
    options.server = server;
    options.sync.back_off = {std::chrono::milliseconds{20}, std::chrono::milliseconds{200}};
    auto opened = TableStation::open(std::move(options));
    if (const auto* wrong = std::get_if<std::string>(&opened)) {
        ADD_FAILURE() << *wrong;
        return nullptr;
    }
    return std::move(std::get<0>(opened));
}

bool play_steps(JournaledMatch& match, std::uint64_t seed, int steps) {
    sim::MatchPlayer player{seed};
    for (int i = 0; i < steps; ++i) {
        const auto step = player.next(match.rules(), match.state());
        if (!step) return true;
        const auto result =
            step->fact ? match.record(*step->fact, step->words) : match.strike_last();
        EXPECT_FALSE(result.error) << *result.error;
        if (result.error) return false;
    }
    return false;
}

std::uint64_t hash_of_replay(const JournaledMatch& match) {
    Script script;
    script.source = "record of a table";
    script.profile = match.sheet().profile;
    script.names = match.sheet().names;
    for (const Record& record : match.records()) {
        ScriptLine line;
        line.content = record;
        script.lines.push_back(line);
    }
    const auto read = read_script(write_script(script));
    if (const auto* wrong = std::get_if<ScriptError>(&read)) {
        ADD_FAILURE() << "line " << wrong->line << ": " << wrong->message;
        return 0;
    }
    const auto again = records(std::get<Script>(read));
    return state_hash(fold(match.rules(), effective(again).entries));
}

std::uint64_t hash_of_bytes(const JournaledMatch& match, const std::vector<std::string>& bytes) {
    const auto id = wire::Uuid::from_text(match.sheet().match_id);
    const auto folded = wire::fold_record(*id, match.rules(), bytes);
    EXPECT_FALSE(folded.fault);
    return state_hash(folded.state);
}

std::vector<std::string> bytes_of_journal(const Journal& journal, const std::string& match_id) {
    std::vector<std::string> bytes;
    for (const JournalEntry& entry : journal.entries(match_id)) bytes.push_back(entry.bytes);
    return bytes;
}

}  // namespace courthand::client
