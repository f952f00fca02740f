// A number as it is printed in a handbook: compared with all its digits.
#pragma once

#include <fmt/format.h>

#include <string>

namespace courthand::forecast {

[[nodiscard]] inline std::string printed(double value, int digits) {
    return fmt::format("{:.{}f}", value, digits);
}

}  // namespace courthand::forecast
