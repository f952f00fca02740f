// Whether a file is the text that we read, UTF-8, and if not, where it is not and what a person can
// do about it. Pure.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace courthand::server::desk {

struct EncodingFault {
    std::uint32_t line = 0;  ///< from 1; 0: the file as a whole
    std::string message;
    std::string cure;
};

/// The first fault of each line; of a file that is no text at all, one. A byte order mark of UTF-8
/// at the beginning is none.
[[nodiscard]] std::vector<EncodingFault> encoding_faults(std::string_view file);

}  // namespace courthand::server::desk
