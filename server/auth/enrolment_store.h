// Where enrolment codes and devices are kept. One tournament per store. Thread-safe.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "server/auth/caller.h"
#include "server/store/status.h"

namespace courthand::server::auth {

/// A one-use code as stored: its hash, never the symbols.
struct StoredCode {
    std::string hash;  ///< `Authority::seal` of the secret
    Seat seat = Seat::table;
    CourtNumber court = 0;
    Instant expires{};
    std::optional<Instant> used;
    std::optional<DeviceId> used_by;  ///< set together with `used`, but for codes of old servers
};

struct Device {
    Caller who;
    std::string name;  ///< as the device calls itself, for the desk's list
    Instant enrolled{};
    std::optional<Instant> revoked;
    std::string key;  ///< public, DER (SubjectPublicKeyInfo); empty: enrolled with an old server
};

/// How long an expired code is still told from one that never was.
inline constexpr std::chrono::hours expired_codes_kept{24};

class EnrolmentStore {
  public:
    virtual ~EnrolmentStore() = default;

    /// Forgets codes that expired long ago unused.
    [[nodiscard]] virtual Status add_code(const StoredCode& code, Instant now) = 0;
    /// Codes that could be used now.
    [[nodiscard]] virtual Result<std::size_t> live_codes(Instant now) = 0;
    /// By its hash, also a used or expired one.
    [[nodiscard]] virtual Result<std::optional<StoredCode>> code(const std::string& hash) = 0;
    /// Marks the code used by the device and adds the device, both or neither. False when another
    /// call was faster, or the code has run out of time meanwhile; how the code was used before is
    /// durable then.
    [[nodiscard]] virtual Result<bool> use_code(const std::string& hash, const Device& device,
                                                Instant now) = 0;

    [[nodiscard]] virtual Result<std::optional<Device>> device(DeviceId device) = 0;
    /// In the order of enrolment.
    [[nodiscard]] virtual Result<std::vector<Device>> devices() = 0;
    /// False when there is no such device. Revoking twice keeps the first time.
    [[nodiscard]] virtual Result<bool> revoke(DeviceId device, Instant now) = 0;
    /// All that are revoked, in no order.
    [[nodiscard]] virtual Result<std::vector<DeviceId>> revoked_devices() = 0;
};

/// The twin without a database, for unit tests.
[[nodiscard]] std::unique_ptr<EnrolmentStore> make_memory_enrolment_store();

}  // namespace courthand::server::auth
