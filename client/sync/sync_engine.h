// Keeps a device and the server in step: hands waiting entries over, takes matches and rulings in.
//
// One thread of its own. Every public call may come from any thread and none waits for the network,
// except `stop`, which waits for the engine's thread. It knows no gRPC, so that its locking can be
// checked under the thread sanitizer. Nothing is sent that is not in the journal first, and an
// entry waits in the journal until the server has said that it has it; so a cut at any moment,
// of the network or of the power, only means that something is sent twice.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include "client/journal/journal.h"
#include "client/session/device.h"
#include "client/session/match_session.h"
#include "client/session/stored_sheet.h"
#include "client/sync/back_off.h"
#include "client/sync/courier.h"
#include "client/sync/patience.h"
#include "client/sync/server_mark.h"
#include "client/sync/watch_line.h"

namespace courthand::client {

/// Setting that names the match now on this device's court.
inline constexpr const char* court_match_setting = "court/match";
/// Setting that names the matches after it, in order, with commas between.
inline constexpr const char* court_following_setting = "court/following";
/// Setting with the cursor of the watch.
inline constexpr const char* watch_cursor_setting = "watch/cursor";
/// Setting with the mark of the server whose records were compared last with this journal.
inline constexpr const char* compared_setting = "server/compared";

/// The sheet of the match is lost here and the server does not know it either: mostly a practice.
/// The person was told; its entries are kept, and are no other match's concern.
[[nodiscard]] bool nowhere_known(const Journal& journal, const std::string& match_id);

class SyncEngine {
  public:
    /// Matches after the present one that a table keeps ready.
    static constexpr int most_kept_ahead = 4;
    /// Matches of this table that the court has no more, of which one look asks where they are.
    /// Mostly there is none: one that is over is asked about once.
    static constexpr int most_moved = 8;
    /// Rulings of one match that may wait to be recorded; a match has a handful. What comes beyond
    /// waits at the server, and the table says so.
    static constexpr std::size_t most_waiting_rulings = 200;
    /// Times one round goes back to an earlier entry of a match, for a server that keeps
    /// forgetting.
    static constexpr int most_steps_back = 20;

    using Clock = std::chrono::steady_clock;
    /// The signature of the bytes of an entry that this device made.
    using Sign = std::function<std::string(std::string_view entry)>;

    struct Options {
        BackOff::Bounds back_off{};
        /// How often to look at everything even when nothing calls for it.
        std::chrono::milliseconds look_again{15000};
        /// How often the court's sheets are fetched even when nothing calls for it: the desk may
        /// have taken a name off a list.
        std::chrono::milliseconds fetch_again{600000};
        /// How often entries that the server refused or keeps beside the record are offered again.
        std::chrono::milliseconds offer_again{60000};
        /// Pause between two matches when all records are compared, so that a hall of tables does
        /// not fall upon a server that has just come back.
        std::chrono::milliseconds between_compared{50};
        /// Records are compared no more often than this, unless the database is another one.
        std::chrono::milliseconds compare_again{60000};
        std::chrono::milliseconds longest_silence{14000};
        /// How long a cursor of the watch that covers nothing kept here may wait for the next
        /// commit: after a power cut so much of the watch comes once more.
        std::chrono::milliseconds cursor_rest{3000};
        /// Spreads the tries of several devices; 0: from the device's id.
        std::uint64_t seed = 0;
        std::function<Clock::time_point()> now = Clock::now;
        Sign sign;  ///< unset: entries go out unsigned
    };

    SyncEngine(Journal& journal, Courier& courier, Device device, Options options);
    SyncEngine(Journal& journal, Courier& courier, Device device);
    ~SyncEngine();
    SyncEngine(const SyncEngine&) = delete;
    SyncEngine& operator=(const SyncEngine&) = delete;

    /// `changed` is called on the engine's thread when status, match or rulings may have changed.
    void start(std::function<void()> changed = {});
    void stop();

    /// There is a new entry.
    void wake();
    /// Ask which match is on the court now.
    void look_at_court();
    /// Ask desk and head official that this device goes on with a match that another one writes.
    void ask_take_over(const std::string& match_id);
    [[nodiscard]] SyncStatus status(const std::string& match_id) const;
    /// How far the wish to take a match over has come; `who` says nothing here.
    [[nodiscard]] Writing wish(const std::string& match_id) const;
    /// The match on this device's court as last heard; empty: none.
    [[nodiscard]] std::string court_match() const;

  private:
    using Failure = std::optional<CallError>;
    void run();
    [[nodiscard]] Failure work();
    [[nodiscard]] Failure keep_watching();
    [[nodiscard]] Failure store_steps();
    using Settings = Journal::Settings;
    void hold_cursor(const std::string& cursor);
    /// The cursor that waits, for the commit that is about to be made.
    [[nodiscard]] Settings with_cursor(Settings settings) const;
    [[nodiscard]] Failure store_cursor();
    [[nodiscard]] bool keep_ruling(const v1::RulingNotice& notice, Settings& settings) const;
    /// Rulings that this device has still to record.
    struct Rulings {
        std::size_t here = 0;  ///< of the match that was asked about
        std::size_t of_others = 0;
    };
    [[nodiscard]] Rulings rulings_waiting(const std::string& match_id) const;
    [[nodiscard]] Failure look_if_wanted();
    [[nodiscard]] Failure hold(const std::string& subject, Failure failure);
    void hear(const v1::ResponseHeader& header);
    void report(const Failure& failure);
    void changed();
    [[nodiscard]] std::chrono::milliseconds rest() const;

    // The court's match: court_look.cpp.
    [[nodiscard]] Failure fetch_court();
    [[nodiscard]] Failure fetch_ahead(const v1::FetchMatchResponse& court,
                                      std::vector<StoredMatch>& matches);
    [[nodiscard]] Failure catch_up(v1::FetchMatchResponse& answer);
    [[nodiscard]] std::uint32_t first_apart(const v1::FetchMatchResponse& answer) const;
    [[nodiscard]] Failure clear_the_way(const v1::FetchMatchResponse& answer);
    [[nodiscard]] Failure take_back(const v1::FetchMatchResponse& answer);
    [[nodiscard]] bool ends_like(const v1::FetchMatchResponse& answer) const;
    [[nodiscard]] bool left_behind(const std::string& match_id, std::uint32_t epoch) const;
    [[nodiscard]] bool wrote_last(const std::string& match_id) const;
    [[nodiscard]] Failure ask_if_wanted();
    void note_wish(const std::string& match_id, const v1::FetchMatchResponse& answer);
    void set_wish(Writing::Wish wish, std::string words = {});
    [[nodiscard]] bool take_names_off(std::vector<StoredMatch>& sheets) const;
    [[nodiscard]] Failure store_court(const std::vector<StoredMatch>& matches,
                                      std::vector<StoredMatch> moved);

    // Matches of this table that the desk has moved away: moved_match.cpp.
    [[nodiscard]] Failure look_after_moved(const v1::FetchMatchResponse& court,
                                           std::vector<StoredMatch>& moved);
    [[nodiscard]] bool may_have_moved(const StoredMatch& match,
                                      const v1::FetchMatchResponse& court) const;
    [[nodiscard]] std::string words_about_place(const std::string& match_id) const;

    // Handing entries over: hand_over.cpp.
    [[nodiscard]] Failure push_all();
    [[nodiscard]] bool offer_due();
    [[nodiscard]] Failure push_patiently(const std::string& match_id, bool offer);
    [[nodiscard]] Failure push_match(const std::string& match_id, bool offer);
    [[nodiscard]] Failure push_aside(const StoredSheet& sheet, const std::string& match_id,
                                     Journal::Which which);
    [[nodiscard]] Failure push_run(const StoredSheet& sheet, std::vector<Journal::Aside> run);
    [[nodiscard]] Failure push_batch(const StoredSheet& sheet, std::vector<JournalEntry>& batch,
                                     std::uint32_t& after, bool& ended);
    [[nodiscard]] Failure step_back(const JournalEntry& first, std::uint32_t head,
                                    std::uint32_t& after, bool& ended);
    [[nodiscard]] bool is_own(const JournalEntry& entry) const;
    [[nodiscard]] std::string signature_of(const JournalEntry& entry) const;

    // A match that one side has lost: lost_match.cpp.
    [[nodiscard]] std::optional<StoredSheet> kept_sheet(const std::string& match_id) const;
    [[nodiscard]] bool is_ours(const StoredSheet& sheet) const;
    [[nodiscard]] CallResult<StoredSheet> sheet_to_send(const std::string& match_id);
    [[nodiscard]] CallResult<StoredMatch> fetch_sheet(const std::string& match_id);
    [[nodiscard]] CallError tell_unknown(const std::string& match_id);

    // What the server may have forgotten: record_check.cpp.
    [[nodiscard]] Failure compare_all();
    [[nodiscard]] Failure compare_next();
    [[nodiscard]] Failure end_pass();
    [[nodiscard]] bool compare_due(const ServerMark& heard);
    [[nodiscard]] Failure compare(const std::string& match_id);
    [[nodiscard]] Failure send_own_again(const std::string& match_id);
    [[nodiscard]] Failure send_aside_again(const std::string& match_id);
    [[nodiscard]] Failure send_again(const std::string& match_id, std::uint32_t head,
                                     const std::string& head_hash);

    Journal& journal_;
    Courier& courier_;
    const Device device_;
    const std::string self_;  ///< the device's id, 16 bytes
    const Options options_;
    BackOff back_off_;   ///< when nobody answers
    Patience patience_;  ///< with what is wrong with one match; engine's thread only
    WatchLine watch_;
    std::function<void()> on_change_;
    std::thread thread_;
    std::optional<Clock::time_point> offered_;   ///< engine's thread only
    std::optional<Clock::time_point> compared_;  ///< end of the last pass; engine's thread only
    std::string compared_generation_;            ///< of that pass; engine's thread only
    /// All records are compared, one in a round, so that what is new goes out meanwhile.
    struct Pass {
        ServerMark server;
        std::vector<std::string> left;  ///< matches, the next one last
        Clock::time_point next;         ///< when that one is due
        Failure first;                  ///< what went wrong first
    };
    std::optional<Pass> pass_;           ///< under way; engine's thread only
    std::set<std::string> offers_owed_;  ///< matches that were passed by; engine's thread only
    bool moved_ = false;  ///< something was settled in this round; engine's thread only
    /// Of the watch, not in the journal yet.
    struct HeldCursor {
        std::string cursor;
        Clock::time_point due;  ///< when it is stored by itself
    };
    std::optional<HeldCursor> held_cursor_;  ///< engine's thread only
    bool follows_ = false;  ///< another device writes the court's match; engine's thread only
    Clock::time_point fetched_{};  ///< the court's sheets; engine's thread only

    mutable std::mutex mutex_;
    std::condition_variable wake_;
    // All below is guarded by mutex_.
    bool stop_ = false;
    bool work_waits_ = true;
    bool look_at_court_ = true;
    bool offer_ = true;
    ServerMark heard_;
    std::string wish_match_;
    Writing wish_;
    SyncStatus::Link link_ = SyncStatus::Link::offline;
    bool rulings_held_up_ = false;  ///< a match has no room for one more
    std::string error_;
    std::string court_match_;
};

/// Spreads the tries of several devices: another one for each, the same at every start.
[[nodiscard]] std::uint64_t jitter_seed(const Device& device);
/// True when trying the next match would fail as well.
[[nodiscard]] bool ends_the_round(const CallError& error) noexcept;
[[nodiscard]] CallError of_journal(const JournalError& error);

}  // namespace courthand::client
