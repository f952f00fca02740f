#include "venue/kept_watch.h"

#include <grpcpp/grpcpp.h>

#include <random>
#include <utility>

#include "venue/venue_call.h"

namespace courthand::venue {

namespace {

using namespace std::chrono_literals;

// A server that has not answered by then is called lost, and the next try begins.
constexpr std::chrono::seconds connect_time{3};
// A refusal is tried again rarely: the desk may have enrolled the device anew.
constexpr client::BackOff::Bounds after_refusal{10'000ms, 10'000ms};
// How often the silence is looked at; short beside the longest one.
constexpr std::chrono::milliseconds look_every{250};

std::uint64_t by_chance() {
    std::random_device device;
    return (std::uint64_t{device()} << 32) | device();
}

}  // namespace

KeptWatch::KeptWatch(std::shared_ptr<grpc::Channel> channel, Options options, Read read,
                     TellLink ended)
    : channel_(std::move(channel)),
      options_(std::move(options)),
      read_(std::move(read)),
      ended_(std::move(ended)) {
    if (options_.seed == 0) options_.seed = by_chance();
}

KeptWatch::~KeptWatch() {
    stop();
}

void KeptWatch::start() {
    {
        const std::scoped_lock lock{mutex_};
        stopped_ = false;
    }
    reader_ = std::thread([this] { watch(); });
    listener_ = std::thread([this] { watch_silence(); });
}

void KeptWatch::stop() {
    {
        const std::scoped_lock lock{mutex_};
        stopped_ = true;
        if (reading_ != nullptr) reading_->TryCancel();
    }
    stop_news_.notify_all();
    for (std::thread* thread : {&reader_, &listener_})
        if (thread->joinable()) thread->join();
}

void KeptWatch::heard(bool progress) {
    const std::scoped_lock lock{mutex_};
    heard_ = options_.now();
    progress_ = progress_ || progress;
}

bool KeptWatch::given_up() {
    const std::scoped_lock lock{mutex_};
    return stopped_;
}

void KeptWatch::begin_reading(grpc::ClientContext& context) {
    const std::scoped_lock lock{mutex_};
    reading_ = &context;
    heard_ = options_.now();
    silent_ = progress_ = false;
    if (stopped_) context.TryCancel();
}

bool KeptWatch::end_reading() {
    const std::scoped_lock lock{mutex_};
    reading_ = nullptr;
    return std::exchange(silent_, false);
}

grpc::Status KeptWatch::read_once() {
    if (!reached(*channel_, connect_time, [this] { return given_up(); }))
        return {grpc::StatusCode::UNAVAILABLE, "not reached"};
    grpc::ClientContext context;
    sign_call(context);
    begin_reading(context);
    grpc::Status status = read_(context);
    if (end_reading()) return {grpc::StatusCode::UNAVAILABLE, "the server has fallen silent"};
    return status;
}

void KeptWatch::watch() {
    client::BackOff back_off(options_.back_off, options_.seed);
    client::BackOff refusals(after_refusal, options_.seed);
    while (true) {
        const grpc::Status status = read_once();
        const bool refused =
            final_refusal(status) || status.error_code() == grpc::StatusCode::DATA_LOSS;
        ended_({refused ? LinkState::refused : LinkState::lost, failure_words(status)});
        std::unique_lock guard{mutex_};
        // A fault of the server's own meets the same question again, most likely: what was read
        // before it is no reason to ask at once, again and again.
        const bool own_fault = status.error_code() == grpc::StatusCode::INTERNAL;
        if (std::exchange(progress_, false) && !own_fault) back_off.reset();
        const auto pause = refused ? refusals.next() : back_off.next();
        if (stop_news_.wait_for(guard, pause, [this] { return stopped_; })) return;
    }
}

void KeptWatch::watch_silence() {
    std::unique_lock guard{mutex_};
    while (!stop_news_.wait_for(guard, look_every, [this] { return stopped_; })) {
        if (reading_ == nullptr || options_.now() - heard_ < options_.longest_silence) continue;
        silent_ = true;
        reading_->TryCancel();
    }
}

}  // namespace courthand::venue
