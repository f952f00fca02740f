// Enrolling a device: a one-use code from the desk is exchanged for a certificate of its own.
#pragma once

#include <chrono>
#include <cstdint>
#include <string>
#include <string_view>

#include "server/auth/authority.h"
#include "server/auth/enrolment_store.h"
#include "server/store/status.h"
#include "wire/enrolment_code.h"
#include "wire/message_limits.h"

namespace courthand::server::auth {

/// Codes that wait to be used. Every court of the largest event has a table and a spare before it
/// comes near; more would make a guess likelier.
inline constexpr std::size_t most_live_codes = 2 * wire::most_courts;
/// How long a code lives unless the desk says otherwise, and at most.
inline constexpr std::chrono::minutes code_lives{wire::usual_code_minutes};
inline constexpr std::chrono::minutes code_lives_at_most{wire::most_code_minutes};

struct CodeWish {
    Seat seat = Seat::table;
    CourtNumber court = 0;  ///< required for tables, 0 for the other seats
    std::chrono::minutes lives = code_lives;
};

struct IssuedCode {
    std::string text;  ///< in groups of four; shown once, never stored
    Instant expires{};
};

/// Makes a code and stores its hash. Used by `courthand-server code` and by the desk.
[[nodiscard]] Result<IssuedCode> issue_code(EnrolmentStore& store, const Authority& authority,
                                            const CodeWish& wish, Instant now);

struct EnrolmentRequest {
    std::string_view secret;   ///< the secret part of the code
    std::string_view request;  ///< PKCS#10, PEM or DER
    std::string_view device_name;
};

struct Enrolled {
    Caller who;
    std::string certificate_pem;
    std::string authority_pem;
};

/// Uses up the code and signs the device's request. A device whose answer was lost sends the same
/// code and the same key again, while the code lives: it is the same device, and gets a certificate
/// again.
[[nodiscard]] Result<Enrolled> enrol(EnrolmentStore& store, const Authority& authority,
                                     const EnrolmentRequest& request, Instant now);

}  // namespace courthand::server::auth
