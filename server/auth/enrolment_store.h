// Where enrolment codes and devices are kept. One tournament per store. Thread-safe.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "server/auth/caller.h"

namespace courthand::server::auth {

/// A one-use code as stored: its hash, never the digits.
struct StoredCode {
    std::string hash;  ///< `Authority::seal` of the secret digits
    /// Leading digit of the secret. A wrong attempt counts against the codes that share it: a
    /// shaky hand does not kill every code of the morning, yet each code can be guessed at only
    /// a few times.
    std::string lookup;
    Seat seat = Seat::table;
    CourtNumber court = 0;
    Instant expires{};
    std::uint8_t tries_left = 0;
    std::optional<Instant> used;
};

struct Device {
    Caller who;
    std::string name;  ///< as the device calls itself, for the desk's list
    Instant enrolled{};
    std::optional<Instant> revoked;
    std::string key;  ///< public, DER SubjectPublicKeyInfo; empty: enrolled before keys were kept
};

/// Failures of the database come out as `StoreFailure` (server/store/status.h).
class EnrolmentStore {
  public:
    virtual ~EnrolmentStore() = default;

    virtual void add_code(const StoredCode& code) = 0;
    /// Codes whose leading digit is `lookup`; usually one, also used and expired ones.
    [[nodiscard]] virtual std::vector<StoredCode> codes_like(const std::string& lookup) = 0;
    /// Takes one try from every unused code with this leading digit.
    virtual void count_wrong_try(const std::string& lookup) = 0;
    /// Marks the code used and adds the device, both or neither. False when another call was
    /// faster, or the code has run out of tries or time meanwhile.
    [[nodiscard]] virtual bool use_code(const std::string& hash, const Device& device,
                                        Instant now) = 0;

    [[nodiscard]] virtual std::optional<Device> device(DeviceId device) = 0;
    /// In the order of enrolment.
    [[nodiscard]] virtual std::vector<Device> devices() = 0;
    /// False when there is no such device. Revoking twice keeps the first time.
    [[nodiscard]] virtual bool revoke(DeviceId device, Instant now) = 0;
    /// All that are revoked, in no order.
    [[nodiscard]] virtual std::vector<DeviceId> revoked_devices() = 0;
};

/// The twin without a database, for unit tests.
[[nodiscard]] std::unique_ptr<EnrolmentStore> make_memory_enrolment_store();

}  // namespace courthand::server::auth
