// What journal tests share: a device, and entries that form a chain.
#pragma once

#include <filesystem>
#include <string>

#include "client/journal/journal.h"
#include "client/session/device.h"
#include "tests/testkit/scratch_folder.h"

namespace courthand::client {

using testkit::ScratchFolder;

inline const std::string match_one = "01900000-0000-7000-8000-000000000001";
inline const std::string match_two = "01900000-0000-7000-8000-000000000002";

/// The enrolled table of court 4.
[[nodiscard]] inline Device table_of_court_four() {
    Device device;
    device.id = "01900000-0000-7000-a000-000000000004";
    device.enrolled = true;
    device.court = 4;
    device.tournament_id = "01900000-0000-7000-b000-000000000001";
    return device;
}

/// Makes entries 1, 2, 3 … of one match, each naming the one before.
class ChainMaker {
  public:
    explicit ChainMaker(std::string match_id, std::size_t bytes = 180);
    [[nodiscard]] JournalEntry next();

  private:
    std::string match_id_;
    std::size_t bytes_;
    std::uint32_t seq_ = 0;
    std::string hash_;
};

/// Fills the memory of the database with a match of its own, then spoils every page of its files:
/// what is read next comes from the disk and is no journal.
void spoil_the_disk(Journal& journal, const std::filesystem::path& folder);

/// Whether a file of the device has these bytes.
[[nodiscard]] bool is_on_the_device(const std::filesystem::path& folder, const std::string& bytes);

/// Opens or fails the test.
[[nodiscard]] std::unique_ptr<Journal> open_journal(const std::filesystem::path& folder,
                                                    std::int64_t most_pages = 0);

}  // namespace courthand::client
