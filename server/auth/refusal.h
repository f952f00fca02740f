// Why a device or a call is turned away, in words for the person at the device.
#pragma once

#include <cstdint>
#include <string>
#include <variant>

namespace courthand::server::auth {

struct Refusal {
    enum class Kind : std::uint8_t {
        wrong_code,  ///< no such code, or mistyped
        expired_code,
        used_code,
        too_many_tries,  ///< from this address, or from all together; passes by itself
        bad_request,     ///< what was sent cannot be read
        no_certificate,  ///< the call needs an enrolled device
        unknown_device,  ///< certificate of ours, but no such device in this venue
        revoked_device,
        wrong_seat,  ///< the seat may not make this call
        busy,        ///< too many ask at this moment
        failed,      ///< the server could not do it; trying again may help
    };
    Kind kind = Kind::failed;
    std::string message;
    std::string cure;

    /// Message and cure as one line for a status or a log.
    [[nodiscard]] std::string text() const {
        return cure.empty() ? message : message + ": " + cure;
    }
};

template <class T>
using OrRefusal = std::variant<T, Refusal>;

}  // namespace courthand::server::auth
