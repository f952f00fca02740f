// Whether the clock of this machine can be right, judged by a certificate.
//
// TLS refuses a certificate that is not good yet or not good any more, in words that name neither
// the clock nor the time. A device whose clock stands wrong meets that first.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace courthand::wire {

/// A sentence with both times (UTC) and the cure when `clock` lies outside the time for which the
/// first certificate of the PEM text is good. Nothing when it lies inside, or when the text holds
/// no certificate. Judge by the server's certificate, or by the device's own, which is good from a
/// day before its enrolment.
[[nodiscard]] std::optional<std::string> clock_complaint(
    std::string_view certificate_pem, std::chrono::system_clock::time_point clock);

}  // namespace courthand::wire
