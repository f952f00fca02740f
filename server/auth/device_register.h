// Whether a device is still welcome, and its key: asked on every call, so what the store has said
// is kept in memory, and a thread looks for revocations by any server. Thread-safe.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <string>
#include <thread>

#include "server/auth/enrolment_store.h"
#include "server/domain/steady_clock.h"

namespace courthand::server::auth {

enum class DeviceStanding : std::uint8_t { good, unknown, revoked };

class DeviceRegister {
  public:
    /// How often the store is asked for revocations; by then a revocation has reached every server.
    /// How long an open stream outlives its device rests on it: `service/stream_registry.h`.
    static constexpr std::chrono::milliseconds look_every{250};
    /// A device that the store did not know is asked for again after this.
    static constexpr std::chrono::milliseconds unknown_lasts{1000};
    /// More devices than any venue has; beyond it those in good standing are forgotten and asked
    /// for again.
    static constexpr std::size_t most_known = 8192;
    /// Threads that may ask the store for devices at once: behind a store that stands still the
    /// others are turned away instead of piling up.
    static constexpr std::size_t most_lookups = 4;

    using Told = std::function<void(DeviceId)>;

    explicit DeviceRegister(EnrolmentStore& store, SteadyNow now = steady_now)
        : store_{store}, now_{std::move(now)} {}
    /// Stops watching.
    ~DeviceRegister();
    DeviceRegister(const DeviceRegister&) = delete;
    DeviceRegister& operator=(const DeviceRegister&) = delete;

    /// Waits for the store only when the device is not known. A failure is that of the store, or
    /// `exhausted` when too many ask already.
    [[nodiscard]] Result<DeviceStanding> standing(DeviceId device);
    /// Public key, DER SubjectPublicKeyInfo; empty: no such device, or it was enrolled before keys
    /// were kept. Waits and fails as `standing` does.
    [[nodiscard]] Result<std::string> key_of(DeviceId device);
    /// False when there is no such device. Takes effect at once in this process, within
    /// `look_every` in others.
    [[nodiscard]] Result<bool> revoke(DeviceId device, Instant now);
    /// Known here to be revoked; never waits.
    [[nodiscard]] bool revoked_here(DeviceId device) const;

    /// Begins to look for revocations. `revoked` hears of each once, from any thread; `looked`
    /// comes after each look.
    void watch(Told revoked, std::function<void()> looked = {});
    void stop_watching();
    /// One look; what the thread does.
    [[nodiscard]] Status look();

  private:
    struct Known {
        DeviceStanding standing{};
        bool read = false;  ///< from the store: `key` is what it has
        std::string key;
        SteadyTime until{};  ///< of `unknown` only
    };
    class Lookup;

    enum class Wanted : std::uint8_t { standing, key };
    [[nodiscard]] Result<Known> known(DeviceId device, Wanted wanted);
    [[nodiscard]] bool mark_revoked(DeviceId device);
    void run();

    EnrolmentStore& store_;
    SteadyNow now_;
    mutable std::mutex mutex_;
    std::map<DeviceId, Known> known_;
    std::size_t lookups_ = 0;
    bool away_ = false;  ///< the store, at the last look; of the thread alone
    Told told_;
    std::function<void()> looked_;
    std::condition_variable wake_;
    bool stop_ = false;
    std::thread thread_;
};

}  // namespace courthand::server::auth
