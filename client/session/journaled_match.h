// The real session of a table: every fact goes to the journal first, then into the fold.
//
// All calls on one thread, as MatchSession says. The journal is shared with the sync thread and
// must outlive the session.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "client/journal/journal.h"
#include "client/session/device.h"
#include "client/session/match_session.h"
#include "client/session/stored_sheet.h"
#include "courthand/v1/sync.pb.h"
#include "wire/fold_record.h"
#include "wire/uuid.h"

namespace courthand::client {

/// What the session needs from around it. Every member may be left out.
struct SessionHooks {
    /// Microseconds since 1970, for people. Default: the system clock.
    std::function<std::int64_t()> now_us;
    /// The signature of an entry's bytes by the device's key. Default: entries stay unsigned.
    std::function<std::string(std::string_view)> sign;
    /// Called after each entry that was written; must not block.
    std::function<void()> written;
    /// Connection as a person should see it. Default: offline, with the waiting entries counted.
    std::function<SyncStatus(const std::string& match_id)> sync_status;
    /// How far the wish to take a match over has come; only `wish` and `words` are used. Default:
    /// there is none.
    std::function<Writing(const std::string& match_id)> wish;
    std::function<void(const std::string& match_id)> ask_to_go_on;
};

class JournaledMatch final : public MatchSession {
  public:
    /// Opens a match the journal knows, and reads its record. A match without entries is shown as
    /// opened under its format, and begins with the first fact that is recorded; the team lists
    /// stay for a person to confirm. Otherwise a sentence.
    [[nodiscard]] static std::variant<std::unique_ptr<JournaledMatch>, std::string> open(
        Journal& journal, const Device& device, const std::string& match_id, SessionHooks hooks);

    using MatchSession::record;
    RecordResult record(std::span<const Record> what, std::string_view text) override;
    /// Strikes the last fact that counts, whoever wrote it. An error when there is none.
    RecordResult strike_last();

    [[nodiscard]] const MatchState& state() const override {
        return fold_.records().empty() ? before_first_ : fold_.state();
    }
    [[nodiscard]] const Rules& rules() const override { return profile_.rules; }
    [[nodiscard]] const MatchSheet& sheet() const override { return sheet_.sheet; }
    [[nodiscard]] std::vector<Verdict> standing() const override;
    [[nodiscard]] SyncStatus sync_status() const override;
    [[nodiscard]] Writing writing() const override;
    void ask_to_go_on() override;

    /// Facts and corrections as written; entry n is at index n - 1.
    [[nodiscard]] const std::vector<Record>& records() const { return fold_.records(); }
    [[nodiscard]] std::span<const Record> written() const override { return fold_.records(); }
    [[nodiscard]] const wire::Head& head() const { return fold_.head(); }

    /// Records the rulings of the head seat that came in since, and takes over the writer and the
    /// team lists of a changed sheet and entries that came back from the server. A ruling that
    /// records nothing is in the news (news.h).
    /// Returns true when the state changed. Call it now and then. When the journal cannot be read,
    /// what was read before stays, and `sync_status` says so.
    bool poll();

  private:
    JournaledMatch(Journal& journal, const Device& device, StoredSheet sheet,
                   const Profile& profile, SessionHooks hooks);
    /// Takes in what the journal has beyond the fold.
    [[nodiscard]] std::optional<std::string> read_record();
    /// Adds one entry to the fold and notes who made it.
    [[nodiscard]] std::optional<std::string> read_entry(const JournalEntry& entry);
    [[nodiscard]] bool take_in();
    [[nodiscard]] Writing::Who who_writes() const;
    [[nodiscard]] v1::Entry frame();
    [[nodiscard]] v1::Entry entry_of(const Record& what, std::string_view text);
    RecordResult write(std::vector<v1::Entry> entries);
    [[nodiscard]] std::string words_of(const JournalError& error);
    void take(const std::vector<wire::ReadEntry>& written, RecordResult& result);
    [[nodiscard]] bool bind(const std::string& name, v1::RulingNotice& notice);
    [[nodiscard]] bool take_ruling(const std::string& name, const v1::RulingNotice& notice);
    void tell_gone(const std::string& name, const v1::RulingNotice& notice);
    void forget_ruling(const std::string& name);
    [[nodiscard]] std::string words_about_gone(const v1::RulingNotice& notice) const;
    /// What a ruling recorded now would hit, seen from the fault that the official saw.
    enum class Aim : std::uint8_t { next, behind_another, gone };
    [[nodiscard]] Aim aim_of(const v1::RulingNotice& notice) const;
    /// The record holds a ruling of that fault, and it says the same.
    [[nodiscard]] bool ruled_so(const v1::RulingNotice& notice) const;

    Journal& journal_;
    Device device_;
    StoredSheet sheet_;
    const Profile& profile_;
    SessionHooks hooks_;
    wire::Uuid match_id_;
    wire::UuidMaker ids_;
    wire::Hasher hasher_;
    wire::RecordFold fold_;
    MatchState before_first_{};  ///< as opened, while nothing is recorded
    bool last_is_ours_ = false;  ///< the last entry was made by this device
    std::string unreadable_;     ///< why the journal could not be read last; empty: it could
};

/// Name under which a ruling waits in the journal until the table has recorded it.
[[nodiscard]] std::string ruling_setting(const std::string& alert_id);
inline constexpr std::string_view ruling_prefix = "ruling/";
/// Rulings a device remembers after it has dealt with them, so that one sent again is known. A
/// tournament has fewer; the oldest go first.
inline constexpr std::size_t most_kept_rulings = 1000;

}  // namespace courthand::client
