// The files of an export in memory, until they have been sent. Bounded.
#pragma once

#include <fmt/format.h>

#include <utility>
#include <vector>

#include "server/export/file_sink.h"

namespace courthand::server::exports {

struct ExportedFile {
    std::string name;
    std::string bytes;
};

class MemorySink final : public FileSink {
  public:
    /// All files of one event: one of 128 teams and 600 matches has about a fifth of it.
    static constexpr std::size_t most_bytes = std::size_t{256} * 1024 * 1024;

    [[nodiscard]] Status begin(const std::string& name) override {
        files_.push_back({name, {}});
        return Status::fine();
    }
    [[nodiscard]] Status write(std::string_view bytes) override {
        size_ += bytes.size();
        if (size_ > most_bytes)
            return Status::failed(
                StatusCode::not_now,
                fmt::format("the event has more than {} MiB", most_bytes / 1024 / 1024),
                "export it on the computer of the server: courthand-server export");
        files_.back().bytes.append(bytes);
        return Status::fine();
    }
    [[nodiscard]] std::vector<ExportedFile> take() { return std::move(files_); }

  private:
    std::vector<ExportedFile> files_;
    std::size_t size_ = 0;
};

}  // namespace courthand::server::exports
