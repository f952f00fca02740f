// Base64 (RFC 4648, section 4), by the crypto library.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace courthand::event_file {

[[nodiscard]] std::string to_base64(std::string_view bytes);
/// Nothing unless `text` is exactly what `to_base64` writes.
[[nodiscard]] std::optional<std::string> from_base64(std::string_view text);

}  // namespace courthand::event_file
