#include "server/service/connection_ledger.h"

#include <utility>

namespace courthand::server::service {

class ConnectionLedger::Place {
  public:
    Place(ConnectionLedger& ledger, DeviceId device, std::string peer)
        : ledger_{ledger}, device_{device}, peer_{std::move(peer)} {}
    ~Place() { ledger_.leave(device_, peer_); }
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;

  private:
    ConnectionLedger& ledger_;
    DeviceId device_;
    std::string peer_;
};

ConnectionLedger::Entered ConnectionLedger::enter(DeviceId device, const std::string& peer) {
    {
        const std::scoped_lock lock{mutex_};
        auto& peers = open_[device];
        if (peers.size() >= most_per_device && !peers.contains(peer))
            return Status::failed(
                StatusCode::exhausted,
                "this device calls from " + std::to_string(most_per_device) +
                    " connections already",
                "close the program where it runs twice; what a lost network left behind ends by "
                "itself within ten seconds");
        ++peers[peer];
    }
    return std::shared_ptr<const Place>{std::make_shared<const Place>(*this, device, peer)};
}

std::size_t ConnectionLedger::open(DeviceId device) const {
    const std::scoped_lock lock{mutex_};
    const auto found = open_.find(device);
    return found == open_.end() ? 0 : found->second.size();
}

void ConnectionLedger::leave(DeviceId device, const std::string& peer) {
    const std::scoped_lock lock{mutex_};
    const auto found = open_.find(device);
    if (found == open_.end()) return;
    const auto calls = found->second.find(peer);
    if (calls != found->second.end() && --calls->second == 0) found->second.erase(calls);
    if (found->second.empty()) open_.erase(found);
}

}  // namespace courthand::server::service
