// Every open stream of the server with the device that opened it, so that a clean shutdown, a
// revocation, and a limit can end them. Thread-safe.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <utility>

#include "server/domain/ids.h"
#include "server/domain/steady_clock.h"
#include "server/service/connection_ledger.h"
#include "server/store/status.h"

namespace courthand::server::service {

class StreamRegistry {
  public:
    /// A seat has two or three open; what a lost network left behind goes first.
    static constexpr std::size_t most_per_device = 8;
    /// A hall of 1,000 courts with two streams each, and as many again that are ending.
    static constexpr std::size_t most_streams = 4096;
    /// Then it must be opened again, with a certificate that is still good.
    static constexpr std::chrono::hours most_age{24};

    using Token = std::uint64_t;
    /// Ends one stream soon with the status; must not block nor call the registry.
    using End = std::function<void(const Status&)>;
    /// Breaks one stream off; for one that reads nothing any more, so that its end does not arrive.
    using Cut = std::function<void()>;
    /// What a stream that was told to end is given before it is broken off.
    static constexpr std::chrono::milliseconds patience{400};
    /// A stream of a device that the desk withdraws, at any server, is gone after this.
    static constexpr std::chrono::milliseconds gone_within{1000};

    explicit StreamRegistry(SteadyNow now = steady_now) : now_{std::move(now)} {}

    /// Who opens a stream, and on which connection.
    struct Opener {
        Opener(DeviceId of, std::string at = {}) : device{of}, peer{std::move(at)} {}
        DeviceId device;
        std::string peer;  ///< address and port, as gRPC writes them
    };

    /// A stream beyond `most_per_device` ends the oldest one of its device; one from too many
    /// connections is refused.
    struct Added {
        Token token = 0;  ///< 0: the stream must end at once
        Status refusal;   ///< then with this
    };
    [[nodiscard]] Added add(const Opener& opener, End end, Cut cut = {});
    /// After it returns `end` and `cut` are not running and will not be called.
    void remove(Token token);
    /// Ends the streams of one device for good: later ones are turned away alike.
    void end_device(DeviceId device, const Status& why);
    /// Ends those that are older than `most_age`, and breaks off what did not end in time; to be
    /// called a few times a second.
    void tidy();
    /// Ends all streams; later ones are turned away.
    void end_all();

    /// Calls count there, too.
    [[nodiscard]] ConnectionLedger& connections() noexcept { return connections_; }

  private:
    struct Stream {
        DeviceId device;
        SteadyTime since;
        End end;
        Cut cut;
        bool ended = false;  ///< told to end; still there until it is gone
        SteadyTime ended_at{};
        std::shared_ptr<const ConnectionLedger::Place> place;
    };
    void end(Stream& stream, const Status& why);
    void make_room(DeviceId device);

    ConnectionLedger connections_;
    SteadyNow now_;
    std::mutex mutex_;
    std::map<Token, Stream> streams_;    ///< oldest first
    std::map<DeviceId, Status> barred_;  ///< a call may be on its way in at that moment
    Token last_ = 0;
    bool stopping_ = false;
};

}  // namespace courthand::server::service
