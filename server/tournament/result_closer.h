// Confirms what the tables have closed by signatures (signed_result.h), where the event says so: a
// thread that looks whenever a match is closed or the record has changed.
//
// A result rests on the end of its table's record, as one that the desk confirms: an entry that
// comes first keeps it from being kept. Several servers may look at once, and so may the desk:
// whoever comes second finds that the match has its result.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "server/domain/match_keeper.h"
#include "server/domain/match_observer.h"
#include "server/tournament/looking_thread.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::tournament {

class ResultCloser final : public MatchObserver {
  public:
    /// Told by the thread of each match that it tried to confirm: ok, or why it was not kept.
    using Told = std::function<void(MatchId, const Status&)>;

    /// `record` and `matches` outlive this.
    ResultCloser(RecordKeeper& record, const MatchKeeper& matches, Told told = {});
    ~ResultCloser() override { stop(); }
    ResultCloser(const ResultCloser&) = delete;
    ResultCloser& operator=(const ResultCloser&) = delete;

    void on_match_changed(const MatchChanged& change) override;
    void on_rebuilt() override { thread_.wake(); }

    /// Confirms all that is closed now; false when something is to be tried again soon.
    [[nodiscard]] bool look();

    void start();
    /// Ends the thread; what it is at is done first.
    void stop();

  private:
    /// Those whose result is to be confirmed, as the record is known here.
    [[nodiscard]] std::vector<MatchId> to_confirm() const;
    [[nodiscard]] Status confirm(MatchId match);

    RecordKeeper& record_;
    const MatchKeeper& matches_;
    Told told_;
    std::uint64_t listening_ = 0;
    LookingThread thread_{"confirming signed results", [this] { return look(); }};
};

}  // namespace courthand::server::tournament
