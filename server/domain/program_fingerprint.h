// Which program this is, to the byte: what one program keeps for itself another must not read.
#pragma once

#include <string>

namespace courthand::server {

/// SHA-256 of the running program's file as 64 hexadecimal digits; made once. Empty when the file
/// cannot be read: then nothing that depends on it may be kept or read.
[[nodiscard]] const std::string& program_fingerprint();

}  // namespace courthand::server
