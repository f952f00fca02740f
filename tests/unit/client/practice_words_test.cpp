// A practice says why nothing of it is sent, at a table of a venue and at one of none.
#include <gtest/gtest.h>

#include "client/session/journaled_match.h"
#include "tests/unit/client/journal_kit.h"

namespace courthand::client {
namespace {

std::string words_at(Device device, const SessionHooks& hooks) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    Device stranger = device;
    stranger.enrolled = false;
    const StoredMatch practice = open_here(stranger, 4, "international-2025", {"A", "B"});
    EXPECT_FALSE(journal->store({practice}, {}));
    const auto opened = JournaledMatch::open(*journal, device, practice.match_id, hooks);
    return std::get<0>(opened)->sync_status().last_error;
}

TEST(PracticeWords, ATableOfNoVenueIsToldHowToBelongToOne) {
    Device device = table_of_court_four();
    device.enrolled = false;
    const std::string words = words_at(device, {});
    EXPECT_NE(words.find("belongs to no venue"), std::string::npos) << words;
    EXPECT_NE(words.find("enrol"), std::string::npos) << words;
}

TEST(PracticeWords, ATableOfAVenueKeepsWhatElseIsToBeSaid) {
    SessionHooks hooks;
    hooks.sync_status = [](const std::string&) {
        SyncStatus status;
        status.last_error = "Tell the desk.";
        return status;
    };
    const std::string words = words_at(table_of_court_four(), hooks);
    EXPECT_NE(words.find("no match of the venue"), std::string::npos) << words;
    EXPECT_TRUE(words.ends_with(" Tell the desk.")) << words;
}

}  // namespace
}  // namespace courthand::client
