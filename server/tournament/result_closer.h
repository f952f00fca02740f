// Confirms what the tables have closed by signatures (signed_result.h), where the event says so: a
// thread that looks whenever a match is closed or the record has changed.
//
// The last signature may have been touched by mistake: it must stand for a while. A result rests on
// the end of its table's record, as one that the desk confirms: an entry that comes first keeps it
// from being kept. Several servers may look at once, and so may the desk: whoever comes second
// finds that the match has its result. What the record refuses is left to the desk, and tried again
// once something that it was refused for is otherwise.
#pragma once

#include <array>
#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <string>
#include <vector>

#include "courthand/event/results.h"
#include "server/domain/match_keeper.h"
#include "server/domain/match_observer.h"
#include "server/domain/steady_clock.h"
#include "server/tournament/looking_thread.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::tournament {

class ResultCloser final : public MatchObserver {
  public:
    /// How long a signed record must stay as it is before its result goes out: whoever touched a
    /// signature by mistake sees it and takes it back. Our own choice.
    static constexpr std::chrono::seconds usual_stand{10};
    struct Stand {
        std::chrono::milliseconds time = usual_stand;
        SteadyNow now = steady_now;
    };

    /// Told by the thread of each match that it tried to confirm: ok, or why it was not kept.
    using Told = std::function<void(MatchId, const Status&)>;

    /// `record` and `matches` outlive this.
    ResultCloser(RecordKeeper& record, const MatchKeeper& matches, Stand stand, Told told = {});
    ~ResultCloser() override { stop(); }
    ResultCloser(const ResultCloser&) = delete;
    ResultCloser& operator=(const ResultCloser&) = delete;

    void on_match_changed(const MatchChanged& change) override;
    void on_rebuilt() override { thread_.wake(); }

    /// Confirms all that has stood closed for long enough; false when something is to be tried
    /// again soon. From any thread; one look at a time.
    [[nodiscard]] bool look();

    /// Why a closed match is left to the desk, as a clause for it; what was refused too, with its
    /// cure. Empty: it is not. From any thread; `match` may be held still meanwhile.
    [[nodiscard]] std::string left_to_desk(const LiveMatch& match) const;

    void start();
    /// Ends the thread; what it is at is done first.
    void stop();

  private:
    struct Signed {
        MatchId match;
        event::ResultConfirmed result;
    };
    /// As the record of the match has stood since.
    struct Standing {
        event::HeadHash head;
        SteadyTime since;
    };
    /// What a refusal rests on: the result, its match in the tournament, and whose it is.
    struct Grounds {
        event::ResultConfirmed result;
        event::MatchState match;
        std::array<event::Side, 2> sides;
        std::uint64_t reading = 0;  ///< of the tournament's record
        friend bool operator==(const Grounds&, const Grounds&) = default;
    };
    struct Refused {
        Grounds grounds;
        std::string why;
    };

    /// Those whose result is to be confirmed, as the record is known here.
    [[nodiscard]] std::vector<Signed> to_confirm(const KnownRecord& known) const;
    void forget_others(const std::vector<Signed>& found);
    /// Whether the record was as it is for long enough.
    [[nodiscard]] bool stands(const Signed& one);
    [[nodiscard]] bool was_refused(MatchId match, const Grounds& grounds) const;
    [[nodiscard]] Status confirm(const Signed& one);

    RecordKeeper& record_;
    const MatchKeeper& matches_;
    const Stand stand_;
    Told told_;

    std::mutex looking_mutex_;
    std::map<MatchId, Standing> standing_;  ///< guarded by looking_mutex_

    mutable std::mutex refused_mutex_;  ///< nothing is waited for under it
    std::map<MatchId, Refused> refused_;

    std::uint64_t listening_ = 0;
    LookingThread thread_{"confirming signed results", [this] { return look(); }};
};

}  // namespace courthand::server::tournament
