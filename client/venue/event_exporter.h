// The whole event as files in a folder on this computer. Implemented over the network
// (export_client.h) and in memory (memory_exporter.h).
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>

#include "venue/link.h"

namespace courthand::venue {

struct ExportWanted {
    std::filesystem::path folder;  ///< must not be there yet, or be empty
    bool with_names = false;       ///< of persons
    std::string author;            ///< function of the person who asks
};

/// What has come so far.
struct ExportProgress {
    int files = 0;  ///< begun
    std::uint64_t bytes = 0;
    friend bool operator==(const ExportProgress&, const ExportProgress&) = default;
};

/// Callbacks may come on any thread; none is made after the exporter is gone.
class EventExporter {
  public:
    using Progress = std::function<void(const ExportProgress&)>;

    EventExporter() = default;
    EventExporter(const EventExporter&) = delete;
    EventExporter& operator=(const EventExporter&) = delete;
    virtual ~EventExporter() = default;

    /// The folder is there as a whole or not at all. The last `progress` before a good answer is
    /// what was written.
    virtual void save(const ExportWanted& wanted, Progress progress, Answer answer) = 0;
};

}  // namespace courthand::venue
