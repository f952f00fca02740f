// The real session of a table: every fact goes to the journal first, then into the fold.
//
// All calls on one thread, as MatchSession says. The journal is shared with the sync thread and
// must outlive the session.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <variant>

#include "client/journal/journal.h"
#include "client/session/device.h"
#include "client/session/match_session.h"
#include "client/session/stored_sheet.h"
#include "wire/fold_record.h"
#include "wire/uuid.h"

namespace courthand::client {

/// What the session needs from around it. Every member may be left out.
struct SessionHooks {
    /// Microseconds since 1970, for people. Default: the system clock.
    std::function<std::int64_t()> now_us;
    /// Called after each entry that was written; must not block.
    std::function<void()> written;
    /// Connection as a person should see it. Default: offline, with the waiting entries counted.
    std::function<SyncStatus(const std::string& match_id)> sync_status;
};

class JournaledMatch final : public MatchSession {
  public:
    /// Opens a match the journal knows, and reads its record. A match without entries is opened
    /// under its format; the team lists stay for a person to confirm. Otherwise a sentence.
    [[nodiscard]] static std::variant<std::unique_ptr<JournaledMatch>, std::string> open(
        Journal& journal, const Device& device, const std::string& match_id, SessionHooks hooks);

    RecordResult record(const Fact& fact) override { return record(fact, {}); }
    RecordResult record(const Fact& fact, std::string_view text) override;
    RecordResult strike_last() override;
    /// Any record, also a correction in the middle.
    RecordResult record(const Record& record, std::string_view text);

    [[nodiscard]] const MatchState& state() const override { return fold_.state(); }
    [[nodiscard]] const Rules& rules() const override { return profile_.rules; }
    [[nodiscard]] const MatchSheet& sheet() const override { return sheet_.sheet; }
    [[nodiscard]] std::vector<Verdict> standing() const override;
    [[nodiscard]] SyncStatus sync_status() const override;

    /// Facts and corrections as written; entry n is at index n - 1.
    [[nodiscard]] const std::vector<Record>& records() const { return fold_.records(); }
    [[nodiscard]] const wire::Head& head() const { return fold_.head(); }

    /// Records the rulings of the head seat that came in since, and takes over a changed sheet and
    /// entries that came back from the server.
    /// Returns true when the state changed. Call it now and then.
    bool poll();

  private:
    JournaledMatch(Journal& journal, const Device& device, StoredSheet sheet,
                   const Profile& profile, SessionHooks hooks);
    /// Takes in what the journal has beyond the fold.
    [[nodiscard]] std::optional<std::string> read_record();
    [[nodiscard]] std::optional<std::string> begin();
    [[nodiscard]] v1::Entry frame();
    RecordResult write(v1::Entry entry);
    [[nodiscard]] bool take_ruling(const std::string& name, const std::string& bytes);

    Journal& journal_;
    Device device_;
    StoredSheet sheet_;
    const Profile& profile_;
    SessionHooks hooks_;
    wire::Uuid match_id_;
    wire::UuidMaker ids_;
    wire::Hasher hasher_;
    wire::RecordFold fold_;
};

/// Name under which a ruling waits in the journal until the table has recorded it.
[[nodiscard]] std::string ruling_setting(const std::string& alert_id);
inline constexpr std::string_view ruling_prefix = "ruling/";

}  // namespace courthand::client
