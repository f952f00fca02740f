// Whether a key and a certificate are one device's.
#pragma once

#include <string>

namespace courthand::client {

/// The certificate was made for the public half of this key. Both PEM; false as well when one of
/// them cannot be read.
[[nodiscard]] bool belong_together(const std::string& key, const std::string& certificate);

}  // namespace courthand::client
