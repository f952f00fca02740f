#include "server/service/stream_registry.h"

#include <string>
#include <utility>

namespace courthand::server::service {
namespace {

Status stopping() {
    return Status::failed(StatusCode::unavailable, "the server is stopping",
                          "connect again in a moment");
}

}  // namespace

StreamRegistry::Added StreamRegistry::add(const Opener& opener, End end, Cut cut) {
    const DeviceId device = opener.device;
    const std::scoped_lock lock{mutex_};
    if (stopping_) return {0, stopping()};
    if (const auto barred = barred_.find(device); barred != barred_.end())
        return {0, barred->second};
    if (streams_.size() >= most_streams)
        return {0,
                Status::failed(StatusCode::exhausted,
                               "the server has " + std::to_string(most_streams) + " streams open",
                               "try again in a moment, or close devices that nobody uses")};
    auto entered = connections_.enter(device, opener.peer);
    if (!entered.ok()) return {0, entered.status()};
    make_room(device);
    streams_[++last_] = {device, now_(), std::move(end),     std::move(cut),
                         false,  {},     *std::move(entered)};
    return {last_, Status::fine()};
}

void StreamRegistry::make_room(DeviceId device) {
    Stream* oldest = nullptr;
    std::size_t open = 0;
    for (auto& [token, stream] : streams_) {
        if (stream.device != device || stream.ended) continue;
        if (oldest == nullptr) oldest = &stream;
        ++open;
    }
    if (open >= most_per_device)
        this->end(*oldest, Status::failed(StatusCode::exhausted,
                                          "this device has opened " +
                                              std::to_string(most_per_device) + " newer streams",
                                          "close the program where it runs twice"));
}

void StreamRegistry::remove(Token token) {
    const std::scoped_lock lock{mutex_};
    streams_.erase(token);
}

void StreamRegistry::end(Stream& stream, const Status& why) {
    if (std::exchange(stream.ended, true)) return;
    stream.ended_at = now_();
    stream.end(why);
}

void StreamRegistry::end_device(DeviceId device, const Status& why) {
    const std::scoped_lock lock{mutex_};
    barred_[device] = why;
    for (auto& [token, stream] : streams_)
        if (stream.device == device) end(stream, why);
}

void StreamRegistry::tidy() {
    const std::scoped_lock lock{mutex_};
    const SteadyTime now = now_();
    for (auto& [token, stream] : streams_) {
        if (stream.ended && stream.cut && now - stream.ended_at >= patience)
            std::exchange(stream.cut, Cut{})();
        if (now - stream.since >= most_age)
            end(stream, Status::failed(StatusCode::unavailable, "this stream is a day old",
                                       "open it again"));
    }
}

void StreamRegistry::end_all() {
    const std::scoped_lock lock{mutex_};
    stopping_ = true;
    for (auto& [token, stream] : streams_) end(stream, stopping());
}

}  // namespace courthand::server::service
