// SHA-256 of a text that comes piece by piece.
#pragma once

#include <memory>
#include <string_view>

#include "wire/sha256.h"

namespace courthand::event_file {

class RunningHash {
  public:
    RunningHash();
    ~RunningHash();
    RunningHash(const RunningHash&) = delete;
    RunningHash& operator=(const RunningHash&) = delete;

    void add(std::string_view bytes);
    /// Of all pieces; nothing may be added any more.
    [[nodiscard]] wire::Hash end();

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace courthand::event_file
