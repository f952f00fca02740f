// Enrolling a device: a one-use code from the desk is exchanged for a certificate of its own.
#pragma once

#include <chrono>
#include <cstdint>
#include <string>
#include <string_view>

#include "server/auth/authority.h"
#include "server/auth/enrolment_store.h"
#include "server/auth/refusal.h"

namespace courthand::server::auth {

/// Wrong attempts after which a code is dead; enough for a shaky hand, too few to guess.
inline constexpr std::uint8_t most_tries = 5;
/// How long a code lives unless the desk says otherwise, and at most.
inline constexpr std::chrono::minutes code_lives{30};
inline constexpr std::chrono::minutes code_lives_at_most{24 * 60};
/// Longest name a device may give itself, in bytes.
inline constexpr std::size_t longest_device_name = 64;

struct CodeWish {
    Seat seat = Seat::table;
    CourtNumber court = 0;  ///< required for tables, 0 for the other seats
    std::chrono::minutes lives = code_lives;
};

struct IssuedCode {
    std::string digits;  ///< as proto/wire/enrolment_code.h: shown once, never stored
    Instant expires{};
};

/// Makes a code and stores its hash. Used by `courthand-server code` and by the desk.
[[nodiscard]] Result<IssuedCode> issue_code(EnrolmentStore& store, const Authority& authority,
                                            const CodeWish& wish, Instant now);

struct EnrolmentRequest {
    std::string_view digits;       ///< as typed; blanks and hyphens are ignored
    std::string_view request;      ///< PKCS#10, PEM or DER
    std::string_view device_name;
};

struct Enrolled {
    Caller who;
    std::string certificate_pem;
    std::string authority_pem;
};

/// Uses up the code and signs the device's request.
[[nodiscard]] Result<Enrolled> enrol(EnrolmentStore& store, const Authority& authority,
                                     const EnrolmentRequest& request, Instant now);

}  // namespace courthand::server::auth
