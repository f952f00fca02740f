// A venue for client tests: a database of its own, a real server, usually with the Harbour Cup, and
// devices that were enrolled the way a person does it.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "client/enrol/enrolment.h"
#include "client/tables/table_station.h"
#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "tests/testkit/eventually.h"
#include "tests/unit/client/journal_kit.h"

namespace courthand::client {

using testkit::eventually;

class Venue {
  public:
    /// With a match on each of four courts: tests/testkit/four_courts.event.
    Venue();
    /// With these words of the command line of the server, and what they say.
    explicit Venue(std::vector<std::string> server_words);
    /// The four courts in a database that somebody else has made, and looks after.
    struct InDatabase {
        std::string dsn;
    };
    explicit Venue(InDatabase where);

    [[nodiscard]] server::testing::ServerProcess& host() { return *server_; }
    /// Its own.
    [[nodiscard]] const server::testing::TestDatabase& database() const { return *database_; }
    /// 24 symbols without blanks, as the desk would read them out.
    [[nodiscard]] std::string code(const std::string& seat, int court, int minutes = 15) const;
    [[nodiscard]] std::filesystem::path folder(const std::string& name) const {
        return devices_.path() / name;
    }
    /// Enrols a table in a folder of that name, or fails the test.
    std::filesystem::path enrol_table(const std::string& name, int court);
    std::filesystem::path enrol_seat(const std::string& name, const std::string& seat);

    /// All bytes of a match as the server has them.
    [[nodiscard]] std::vector<std::string> record(const std::filesystem::path& device,
                                                  const std::string& match_id) const;

  private:
    void start(std::vector<std::string> server_words);

    std::optional<server::testing::TestDatabase> database_;
    std::string dsn_;
    ScratchFolder devices_;
    std::unique_ptr<server::testing::ServerProcess> server_;
};

/// Opens a table that reconnects quickly, or fails the test.
[[nodiscard]] std::unique_ptr<TableStation> open_table(const std::filesystem::path& folder,
                                                       const std::string& server = {});
/// Plays up to `steps` steps; true when the match is over.
bool play_steps(JournaledMatch& match, std::uint64_t seed, int steps);
/// State hash of the same match written as a script, read again and folded.
[[nodiscard]] std::uint64_t hash_of_replay(const JournaledMatch& match);
[[nodiscard]] std::uint64_t hash_of_bytes(const JournaledMatch& match,
                                          const std::vector<std::string>& bytes);
[[nodiscard]] std::vector<std::string> bytes_of_journal(const Journal& journal,
                                                        const std::string& match_id);

}  // namespace courthand::client
