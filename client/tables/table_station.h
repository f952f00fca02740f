// A table of one court as a whole: journal, device, sync with the server, and which match is next.
// The table seat and the simulated tables both stand on it.
//
// Calls on one thread, except where said otherwise. Works with no server from its journal.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "client/journal/journal.h"
#include "client/session/device.h"
#include "client/session/journaled_match.h"
#include "client/sync/sync_engine.h"

namespace courthand::client {

/// Setting of the journal: `TableStation::keys`.
inline constexpr const char* keys_setting = "table/keys";

class TableStation {
  public:
    struct Options {
        std::filesystem::path folder;  ///< of the device
        std::string server;            ///< HOST:PORT; empty: as at enrolment
        std::uint16_t court = 0;       ///< 0: as at enrolment
        SyncEngine::Options sync{};
        /// Called on the engine's thread when something may have changed; must not block.
        std::function<void()> changed;
    };

    /// Opens the journal and, when the device is enrolled, starts the sync. Otherwise a sentence.
    [[nodiscard]] static std::variant<std::unique_ptr<TableStation>, std::string> open(
        Options options);
    ~TableStation();

    [[nodiscard]] Journal& journal() { return *journal_; }
    [[nodiscard]] const Device& device() const { return device_; }
    [[nodiscard]] std::uint16_t court() const { return device_.court; }
    /// What opening the journal had to repair, in words; empty when nothing.
    [[nodiscard]] std::string recovery_words() const;
    /// False when the device only practises: it is not enrolled.
    [[nodiscard]] bool syncs() const { return engine_ != nullptr; }

    /// That the folder holds no enrolment, and the cure; empty when it holds one.
    [[nodiscard]] std::string not_enrolled_words() const;

    /// The match this table should go on with: an unfinished one that it writes, else the one the
    /// server has on the court, else the next it heard of. Empty: none.
    [[nodiscard]] std::string next_match();
    /// The match on the court that another device writes, while it is not over: this table can show
    /// it and ask to go on with it. Empty: none.
    [[nodiscard]] std::string match_elsewhere();
    /// What the screen of this table should show: its own unfinished match, else the one on the
    /// court, whoever writes it, else the next one. Empty: none.
    [[nodiscard]] std::string match_to_show();
    /// What this table has left open, for its start: its own unfinished match, else the last one
    /// that it wrote, as long as the result waits for signatures. Empty: nothing.
    [[nodiscard]] std::string match_left_open();
    /// The desk has put the match on another court or cancelled it. `status` says so in words.
    [[nodiscard]] bool left_court(const std::string& match_id) const;
    /// "Harbour Lights - Mill Lane, match 12" for a match the device knows.
    [[nodiscard]] std::string words_of(const std::string& match_id) const;
    /// A match to practise with, which is never sent. Its id.
    [[nodiscard]] std::variant<std::string, JournalError> open_practice(
        const std::string& profile, const PerTeam<std::string>& names);
    /// A match that this table opens by itself and tells the server of later; of a device that is
    /// not enrolled, a practice. Its id.
    [[nodiscard]] std::variant<std::string, JournalError> open_own_match(
        const std::string& profile, const PerTeam<std::string>& names);
    [[nodiscard]] std::variant<std::unique_ptr<JournaledMatch>, std::string> open_match(
        const std::string& match_id);
    /// Records what the head official ruled on matches of this table that are not `shown` any more.
    void record_left_rulings(const std::string& shown);
    /// What the person has still to see (session/news.h); oldest first.
    [[nodiscard]] std::vector<std::string> unseen_news() const;
    void forget_news(const std::string& words);
    /// The keys that a person chose at this table, as the seat writes them; empty: the usual ones.
    [[nodiscard]] std::string keys() const { return journal_->setting(keys_setting); }
    [[nodiscard]] std::optional<JournalError> keep_keys(const std::string& keys) {
        return journal_->store({}, {{keys_setting, keys}});
    }
    /// Asks the server which match is on the court.
    void look_at_court();
    [[nodiscard]] SyncStatus status(const std::string& match_id) const;
    /// True when every entry of this device is with the server, in a record or on a branch.
    [[nodiscard]] bool all_sent() const;

  private:
    TableStation() = default;
    [[nodiscard]] SessionHooks hooks();
    /// Known to be finished, or another device's to write.
    [[nodiscard]] bool playable(const std::string& match_id);
    /// True when the record as far as it is here is over.
    [[nodiscard]] bool over(const std::string& match_id);
    /// The match whose record was written last by the clock of this device; empty: none, or a
    /// practice.
    [[nodiscard]] std::string written_last() const;
    /// Over, and not signed by those without whom it is not closed.
    [[nodiscard]] bool waits_for_signatures(const std::string& match_id) const;
    /// The unfinished match that this device writes; a practice in `practice`.
    [[nodiscard]] std::string begun_here(std::string& practice);

    std::filesystem::path folder_;
    std::unique_ptr<Journal> journal_;
    Device device_;
    std::function<std::string(std::string_view)> sign_;  ///< by the device's key
    std::unique_ptr<Courier> courier_;
    std::unique_ptr<SyncEngine> engine_;
    /// Whether the record that ends with this entry is over.
    struct Seen {
        std::string last_hash;
        bool over = false;
    };
    std::map<std::string, Seen> seen_;  ///< by match, to fold each record only when it has changed
};

}  // namespace courthand::client
