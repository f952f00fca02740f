// The exporter in memory: the twin of the network client, for tests of screens. It writes nothing:
// the test says what comes.
#pragma once

#include <mutex>
#include <vector>

#include "venue/event_exporter.h"

namespace courthand::venue {

/// Thread-safe. Calls back on the thread of who tells.
class MemoryExporter final : public EventExporter {
  public:
    void save(const ExportWanted& wanted, Progress progress, Answer answer) override;

    /// To the last that asked. An answer is given once.
    void tell(const ExportProgress& so_far);
    void answer(const Outcome& outcome);
    [[nodiscard]] std::vector<ExportWanted> asked() const;

  private:
    mutable std::mutex mutex_;
    std::vector<ExportWanted> asked_;
    Progress progress_;
    Answer answer_;
};

}  // namespace courthand::venue
