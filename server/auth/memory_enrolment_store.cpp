#include <algorithm>
#include <mutex>

#include "server/auth/enrolment_store.h"

namespace courthand::server::auth {

namespace {

class MemoryEnrolmentStore final : public EnrolmentStore {
  public:
    Status add_code(const StoredCode& code, Instant now) override {
        const std::scoped_lock lock{mutex_};
        codes_.erase(std::remove_if(codes_.begin(), codes_.end(),
                                    [&](const StoredCode& old) {
                                        return !old.used && old.expires < now - expired_codes_kept;
                                    }),
                     codes_.end());
        codes_.push_back(code);
        return Status::fine();
    }

    Result<std::size_t> live_codes(Instant now) override {
        const std::scoped_lock lock{mutex_};
        return static_cast<std::size_t>(std::count_if(
            codes_.begin(), codes_.end(),
            [&](const StoredCode& code) { return !code.used && code.expires > now; }));
    }

    Result<std::optional<StoredCode>> code(const std::string& hash) override {
        const std::scoped_lock lock{mutex_};
        for (const StoredCode& code : codes_)
            if (code.hash == hash) return std::optional{code};
        return std::optional<StoredCode>{};
    }

    Result<bool> use_code(const std::string& hash, const Device& device, Instant now) override {
        const std::scoped_lock lock{mutex_};
        for (StoredCode& code : codes_) {
            if (code.hash != hash) continue;
            if (code.used || code.expires <= now) return false;
            code.used = now;
            code.used_by = device.who.device;
            devices_.push_back(device);
            return true;
        }
        return false;
    }

    Result<std::optional<Device>> device(DeviceId id) override {
        const std::scoped_lock lock{mutex_};
        const auto found = find(id);
        return found == devices_.end() ? std::optional<Device>{} : std::optional{*found};
    }

    Result<std::vector<Device>> devices() override {
        const std::scoped_lock lock{mutex_};
        return devices_;
    }

    Result<bool> revoke(DeviceId id, Instant now) override {
        const std::scoped_lock lock{mutex_};
        const auto found = find(id);
        if (found == devices_.end()) return false;
        if (!found->revoked) found->revoked = now;
        return true;
    }

    Result<std::vector<DeviceId>> revoked_devices() override {
        const std::scoped_lock lock{mutex_};
        std::vector<DeviceId> revoked;
        for (const Device& device : devices_)
            if (device.revoked) revoked.push_back(device.who.device);
        return revoked;
    }

  private:
    std::vector<Device>::iterator find(DeviceId id) {
        return std::find_if(devices_.begin(), devices_.end(),
                            [&](const Device& device) { return device.who.device == id; });
    }

    std::mutex mutex_;
    std::vector<StoredCode> codes_;
    std::vector<Device> devices_;
};

}  // namespace

std::unique_ptr<EnrolmentStore> make_memory_enrolment_store() {
    return std::make_unique<MemoryEnrolmentStore>();
}

}  // namespace courthand::server::auth
