// How large a message of the server may be, for those who write it and those who read it.
#pragma once

#include <cstddef>

namespace courthand::wire {

/// One message that the server answers or streams, and what a device reads at most. Pieces of what
/// grows are a quarter or half of it; a list of a whole hall is far below.
inline constexpr std::size_t most_answer_bytes = 4UL * 1024 * 1024;

}  // namespace courthand::wire
