#include "venue/memory_exporter.h"

#include <utility>

namespace courthand::venue {

void MemoryExporter::save(const ExportWanted& wanted, Progress progress, Answer answer) {
    const std::scoped_lock lock{mutex_};
    asked_.push_back(wanted);
    progress_ = std::move(progress);
    answer_ = std::move(answer);
}

void MemoryExporter::tell(const ExportProgress& so_far) {
    Progress progress;
    {
        const std::scoped_lock lock{mutex_};
        progress = progress_;
    }
    if (progress) progress(so_far);
}

void MemoryExporter::answer(const Outcome& outcome) {
    Answer answer;
    {
        const std::scoped_lock lock{mutex_};
        answer = std::exchange(answer_, {});
        progress_ = {};
    }
    if (answer) answer(outcome);
}

std::vector<ExportWanted> MemoryExporter::asked() const {
    const std::scoped_lock lock{mutex_};
    return asked_;
}

}  // namespace courthand::venue
