// Text made part of a page.
#pragma once

#include <string>
#include <string_view>

namespace courthand::server::publish {

/// Safe as content of an element and between the quotes of an attribute.
[[nodiscard]] std::string escaped(std::string_view text);

}  // namespace courthand::server::publish
