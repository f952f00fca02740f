#include "server/auth/device_register.h"

#include <utility>

#include "server/domain/fault_log.h"
#include "server/domain/fault_shield.h"
#include "server/store/status.h"

namespace courthand::server::auth {

/// One thread at the store; refused when too many are there.
class DeviceRegister::Lookup {
  public:
    explicit Lookup(DeviceRegister& of) : of_{of} {
        const std::scoped_lock lock{of_.mutex_};
        admitted_ = of_.lookups_ < most_lookups;
        if (admitted_) ++of_.lookups_;
    }
    ~Lookup() {
        const std::scoped_lock lock{of_.mutex_};
        if (admitted_) --of_.lookups_;
    }
    [[nodiscard]] Status status() const {
        if (admitted_) return Status::fine();
        return Status::failed(StatusCode::exhausted, "too many devices connect at this moment",
                              "try again in a moment");
    }
    Lookup(const Lookup&) = delete;
    Lookup& operator=(const Lookup&) = delete;

  private:
    DeviceRegister& of_;
    bool admitted_ = false;
};

DeviceRegister::~DeviceRegister() {
    stop_watching();
}

Result<DeviceRegister::Known> DeviceRegister::known(DeviceId device, Wanted wanted) {
    {
        const std::scoped_lock lock{mutex_};
        const auto found = known_.find(device);
        const bool enough =
            found != known_.end() && (found->second.read || wanted == Wanted::standing) &&
            (found->second.standing != DeviceStanding::unknown || now_() < found->second.until);
        if (enough) return found->second;
    }
    // The store is asked outside the lock: a slow database must not hold up other devices' calls.
    const Lookup lookup{*this};
    if (Status admitted = lookup.status(); !admitted.ok()) return admitted;
    const Result<std::optional<Device>> read = store_.device(device);
    if (!read.ok()) return read.status();
    const std::optional<Device>& stored = *read;
    Known news;
    news.standing = !stored           ? DeviceStanding::unknown
                    : stored->revoked ? DeviceStanding::revoked
                                      : DeviceStanding::good;
    if (stored) news.key = stored->key;
    news.until = now_() + unknown_lasts;
    const std::scoped_lock lock{mutex_};
    if (known_.size() >= most_known)
        std::erase_if(
            known_, [](const auto& one) { return one.second.standing != DeviceStanding::revoked; });
    Known& kept = known_[device];
    // A revocation that came meanwhile is newer than what the store said.
    if (kept.standing != DeviceStanding::revoked) kept.standing = news.standing;
    kept.read = true;
    kept.key = std::move(news.key);
    kept.until = news.until;
    return kept;
}

Result<DeviceStanding> DeviceRegister::standing(DeviceId device) {
    const Result<Known> now = known(device, Wanted::standing);
    if (!now.ok()) return now.status();
    return now->standing;
}

Result<std::string> DeviceRegister::key_of(DeviceId device) {
    Result<Known> now = known(device, Wanted::key);
    if (!now.ok()) return now.status();
    return std::move(now->key);
}

bool DeviceRegister::mark_revoked(DeviceId device) {
    const std::scoped_lock lock{mutex_};
    Known& kept = known_[device];
    return std::exchange(kept.standing, DeviceStanding::revoked) != DeviceStanding::revoked;
}

Result<bool> DeviceRegister::revoke(DeviceId device, Instant now) {
    const Result<bool> revoked = store_.revoke(device, now);
    if (!revoked.ok() || !*revoked) return revoked;
    const bool news = mark_revoked(device);
    if (news && told_) told_(device);
    return true;
}

bool DeviceRegister::revoked_here(DeviceId device) const {
    const std::scoped_lock lock{mutex_};
    const auto found = known_.find(device);
    return found != known_.end() && found->second.standing == DeviceStanding::revoked;
}

Status DeviceRegister::look() {
    const Result<std::vector<DeviceId>> revoked = store_.revoked_devices();
    if (!revoked.ok()) return revoked.status();
    for (const DeviceId device : *revoked)
        if (mark_revoked(device) && told_) told_(device);
    return Status::fine();
}

void DeviceRegister::watch(Told revoked, std::function<void()> looked) {
    told_ = std::move(revoked);
    looked_ = std::move(looked);
    thread_ = std::thread{[this] { run(); }};
}

void DeviceRegister::stop_watching() {
    {
        const std::scoped_lock lock{mutex_};
        stop_ = true;
    }
    wake_.notify_all();
    if (thread_.joinable()) thread_.join();
}

void DeviceRegister::run() {
    // Said once while it lasts: the follower reports the database, too.
    FaultShield looking{"look for revocations"};
    FaultShield telling{"after a look for revocations"};
    while (true) {
        (void)looking.run([this] {
            const Status looked = look();
            if (!looked.ok() && !away_) log_fault("look for revocations", looked.text());
            away_ = !looked.ok();
        });
        if (looked_) (void)telling.run(looked_);
        std::unique_lock lock{mutex_};
        if (wake_.wait_for(lock, look_every, [this] { return stop_; })) return;
    }
}

}  // namespace courthand::server::auth
