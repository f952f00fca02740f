#include "server/service/record_follower.h"

#include <utility>

#include "server/domain/fault_log.h"

namespace courthand::server::service {

namespace {

constexpr const char* place = "the tournament's record";

}  // namespace

Status RecordFollower::start() {
    if (Status status = begin_anew(); !status.ok()) return status;
    if (token_ == 0)
        token_ = parts_.hub.subscribe([this](Hub::Wake why) { wake(why); }, Hub::Record{});
    // What came between the reading and the subscription.
    wake(Hub::Wake::news);
    return Status::fine();
}

void RecordFollower::stop() {
    if (token_ != 0) parts_.hub.unsubscribe(std::exchange(token_, 0));
}

void RecordFollower::wake(Hub::Wake why) {
    const std::scoped_lock lock{mutex_};
    if (why == Hub::Wake::tick && !failed_) return;
    if (looking_) {
        again_ = true;
        return;
    }
    looking_ = parts_.work.submit(Lane::record, [this] { look(); });
    failed_ = !looking_;
}

void RecordFollower::look() {
    for (;;) {
        const bool done = look_once();
        const std::scoped_lock lock{mutex_};
        failed_ = !done;
        if (done && std::exchange(again_, false)) continue;
        looking_ = false;
        return;
    }
}

bool RecordFollower::look_once() {
    try {
        const Status status = take_news();
        return status.ok();
    } catch (...) {
        log_current_exception(place);
        return false;
    }
}

Status RecordFollower::take_news() {
    for (;;) {
        const Hub::Taken taken = parts_.hub.take(position_, era_, Hub::Record{});
        if (taken.where != Hub::Taken::Where::here) {
            if (Status status = begin_anew(); !status.ok()) return status;
            continue;
        }
        if (!taken.items.empty())
            if (Status status = take_items(taken.items); !status.ok()) return status;
        if (taken.head == position_) return Status::fine();
        position_ = taken.head;
    }
}

Status RecordFollower::take_items(std::span<const FeedItem> items) {
    const Status status = parts_.record.catch_up();
    for (const FeedItem& item : items)
        if (const auto gone = tournament::erased_in(item); !gone.empty())
            parts_.record.words_erased(gone);
    return worth_another_try(status) ? status : Status::fine();
}

Status RecordFollower::begin_anew() {
    // Before the record is read: what comes to the feed meanwhile is looked at again.
    const Hub::Feed feed = parts_.hub.feed();
    Status status = parts_.record.read_anew();
    if (worth_another_try(status)) return status;
    era_ = feed.era;
    position_ = feed.head;
    return Status::fine();
}

bool RecordFollower::worth_another_try(const Status& status) {
    if (std::exchange(said_, status.code) != status.code && !status.ok())
        log_fault(place, status.text());
    return status.passing();
}

}  // namespace courthand::server::service
