// The files of an export in a folder that is there as a whole or not at all.
#pragma once

#include <filesystem>

#include "event_file/whole_folder.h"
#include "server/export/file_sink.h"

namespace courthand::server::exports {

class FolderSink final : public FileSink {
  public:
    /// `folder` must not be there yet, or be empty.
    explicit FolderSink(const std::filesystem::path& folder) : folder_{folder} {}

    /// Before the first file.
    [[nodiscard]] Status open();
    [[nodiscard]] Status begin(const std::string& name) override;
    [[nodiscard]] Status write(std::string_view bytes) override;
    /// Gives the folder its name.
    [[nodiscard]] Status finish();

  private:
    event_file::WholeFolder folder_;
};

}  // namespace courthand::server::exports
