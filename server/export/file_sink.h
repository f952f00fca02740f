// Where the files of an export go, one after the other: into a folder, or to a desk.
#pragma once

#include <string>
#include <string_view>

#include "server/store/status.h"

namespace courthand::server::exports {

class FileSink {
  public:
    virtual ~FileSink() = default;
    /// Begins the next file; `name` has no folder in it.
    [[nodiscard]] virtual Status begin(const std::string& name) = 0;
    /// More of the file that was begun.
    [[nodiscard]] virtual Status write(std::string_view bytes) = 0;
};

}  // namespace courthand::server::exports
