// Whether a device is still welcome: asked on every call, so answers are kept for a moment.
// Thread-safe.
#pragma once

#include <chrono>
#include <cstdint>
#include <map>
#include <mutex>
#include <set>

#include "server/auth/enrolment_store.h"

namespace courthand::server::auth {

enum class DeviceStanding : std::uint8_t { good, unknown, revoked };

class DeviceRegister {
  public:
    /// How long another server's revocation may go unnoticed here.
    static constexpr std::chrono::milliseconds answers_last{1000};
    /// More devices than any venue has; beyond it the answers are forgotten.
    static constexpr std::size_t most_answers = 4096;

    explicit DeviceRegister(EnrolmentStore& store) : store_{store} {}

    /// May throw what the store throws.
    [[nodiscard]] DeviceStanding standing(DeviceId device, Instant now);
    /// False when there is no such device. Takes effect at once in this process.
    [[nodiscard]] bool revoke(DeviceId device, Instant now);
    /// Revoked through this process; never waits. For streams that are open already.
    [[nodiscard]] bool revoked_here(DeviceId device) const;

  private:
    struct Answer {
        DeviceStanding standing{};
        Instant until{};
    };
    EnrolmentStore& store_;
    mutable std::mutex mutex_;
    std::set<DeviceId> revoked_;
    std::map<DeviceId, Answer> answers_;
};

}  // namespace courthand::server::auth
