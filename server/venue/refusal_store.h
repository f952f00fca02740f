// Refused entries of all servers of a venue, shared by a table.
#pragma once

#include <functional>
#include <map>
#include <mutex>
#include <utility>
#include <vector>

#include "server/domain/refusals.h"
#include "server/store/status.h"

namespace courthand::server::venue {

/// Thread-safe.
class RefusalStore {
  public:
    virtual ~RefusalStore() = default;
    /// Keeps the changes of one server, forgets what stands in a record by now, whichever way it
    /// came there, and what is of a withdrawn device, and answers what is left of all servers. A
    /// device keeps the newest `Refusals::most_of_a_device`, all together `Refusals::most`.
    [[nodiscard]] virtual Result<std::vector<Refusals::Refusal>> exchange(
        const Refusals::Changes& changes) = 0;
};

/// The twin without a database.
class MemoryRefusalStore final : public RefusalStore {
  public:
    /// Whether it stands in a record by now, or its device is withdrawn: other stores know.
    using Settled = std::function<bool(const Refusals::Refusal&)>;
    explicit MemoryRefusalStore(Settled settled = {}) : settled_{std::move(settled)} {}

    Result<std::vector<Refusals::Refusal>> exchange(const Refusals::Changes& changes) override;

  private:
    void add(const Refusals::Refusal& refusal);
    void make_room_for(DeviceId device);

    Settled settled_;
    std::mutex mutex_;
    std::map<Refusals::Place, Refusals::Refusal> refused_;
};

/// Tells the others what was refused here and learns what they refused. While the database is away
/// nothing is lost.
[[nodiscard]] Status share(Refusals& refusals, RefusalStore& store);

}  // namespace courthand::server::venue
