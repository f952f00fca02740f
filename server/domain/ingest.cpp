#include "server/domain/ingest.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace courthand::server {
namespace {

std::size_t bytes_of(const Submission& submission) {
    std::size_t bytes = 0;
    for (const AppendItem& item : submission.items) bytes += item.bytes->size();
    return bytes;
}

/// A match that a table opened by itself is made before its entries; made already is as good.
Status make_opened(MatchStore& store, const std::vector<Submission>& group) {
    for (const Submission& submission : group) {
        if (!submission.opened_here) continue;
        const auto made = store.create_match(*submission.opened_here);
        if (!made.ok() && made.status().code != StatusCode::already_exists) return made.status();
    }
    return Status::fine();
}

}  // namespace

Ingest::Ingest(MatchStore& store) : store_{store}, thread_{[this] { run(); }} {}

Ingest::~Ingest() {
    {
        const std::scoped_lock lock{mutex_};
        stop_ = true;
    }
    wake_.notify_all();
    thread_.join();
}

void Ingest::set_committed(Committed committed) {
    const std::scoped_lock lock{mutex_};
    committed_ = std::move(committed);
}

bool Ingest::has_room(std::size_t entries) const {
    const std::scoped_lock lock{mutex_};
    return waiting_.size() < most_waiting_submissions &&
           waiting_entries_ + entries <= most_waiting_entries;
}

bool Ingest::have_enough() const {
    return stop_ || waiting_.size() >= enough_ || waiting_entries_ >= most_entries_per_append;
}

bool Ingest::submit(Submission submission) {
    const std::size_t bytes = bytes_of(submission);
    bool enough = false;
    {
        const std::scoped_lock lock{mutex_};
        if (stop_ || waiting_.size() >= most_waiting_submissions ||
            waiting_entries_ + submission.items.size() > most_waiting_entries ||
            waiting_bytes_ + bytes > most_waiting_bytes)
            return false;
        waiting_entries_ += submission.items.size();
        waiting_bytes_ += bytes;
        if (!keeps_nothing_since_) keeps_nothing_since_ = std::chrono::steady_clock::now();
        waiting_.push_back(std::move(submission));
        enough = have_enough();
    }
    if (enough) wake_.notify_one();
    return true;
}

void Ingest::run() {
    while (true) {
        std::vector<Submission> group = next_group();
        if (!group.empty()) {
            last_tournament_ = group.front().tournament;
            commit(std::move(group));
            continue;
        }
        {
            const std::scoped_lock lock{mutex_};
            if (stop_) return;
        }
        probe();
    }
}

/// Whether the store keeps again: an append of nothing waits for all that any other waits for.
void Ingest::probe() {
    (void)appending_.run([this] { note(store_.append(last_tournament_, {}).status()); });
}

void Ingest::note(const Status& status) {
    const std::scoped_lock lock{mutex_};
    // Also what does not pass by itself keeps nothing. One submission that can never be kept says
    // no more than that: the others, or the next probe, tell.
    if (!status.ok()) return;
    keeps_nothing_since_.reset();
    if (!waiting_.empty()) keeps_nothing_since_ = std::chrono::steady_clock::now();
}

std::chrono::milliseconds Ingest::keeps_nothing_for() const {
    const std::scoped_lock lock{mutex_};
    if (!keeps_nothing_since_) return {};
    return std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::steady_clock::now() -
                                                                 *keeps_nothing_since_);
}

void Ingest::turn_away_waiting(const Status& status) {
    std::deque<Submission> waiting;
    {
        const std::scoped_lock lock{mutex_};
        waiting.swap(waiting_);
        waiting_entries_ = waiting_bytes_ = 0;
    }
    for (const Submission& submission : waiting) give(submission, status);
}

/// Empty: nothing came in time.
std::vector<Submission> Ingest::next_group() {
    std::unique_lock lock{mutex_};
    const auto ready = [this] { return stop_ || !waiting_.empty(); };
    if (!keeps_nothing_since_)
        wake_.wait(lock, ready);
    else
        wake_.wait_for(lock, probes_every, ready);
    if (waiting_.empty()) return {};
    gather(lock);
    std::vector<Submission> group;
    std::size_t entries = 0;
    while (!waiting_.empty()) {
        Submission& next = waiting_.front();
        const bool fits = entries + next.items.size() <= most_entries_per_append;
        const bool same = group.empty() || group.front().tournament == next.tournament;
        if (!group.empty() && (!fits || !same)) break;
        entries += next.items.size();
        waiting_entries_ -= next.items.size();
        waiting_bytes_ -= bytes_of(next);
        group.push_back(std::move(next));
        waiting_.pop_front();
    }
    last_groups_ = {group.size(), last_groups_.front()};
    return group;
}

// Where many came together a moment ago, the first of them need not be committed alone, nor the
// last: one more than the larger of the last two groups may come.
void Ingest::gather(std::unique_lock<std::mutex>& lock) {
    const std::size_t most = *std::max_element(last_groups_.begin(), last_groups_.end());
    if (most < 2) return;
    enough_ = most + 1;
    for (int pause = 0; pause < most_pauses; ++pause) {
        const std::size_t before = waiting_.size();
        if (wake_.wait_for(lock, gathers_for, [this] { return have_enough(); }) ||
            waiting_.size() == before)
            break;
    }
    enough_ = 1;
}

Result<std::vector<AppendResult>> Ingest::append(const std::vector<Submission>& group) {
    const auto began = std::chrono::steady_clock::now();
    if (const Status made = make_opened(store_, group); !made.ok()) return made;
    std::vector<AppendItem> items;
    for (const Submission& submission : group)
        items.insert(items.end(), submission.items.begin(), submission.items.end());
    auto results = store_.append(group.front().tournament, items);
    // In doubt: asking once more finds out, because what is kept is recognised by its id.
    const bool in_time = std::chrono::steady_clock::now() - began < asks_again_within;
    if (!results.ok() && !results.status().definite() && in_time)
        results = store_.append(group.front().tournament, items);
    if (results.ok() && committed_) tell_committed(items, *results);
    return results;
}

void Ingest::tell_committed(const std::vector<AppendItem>& items,
                            const std::vector<AppendResult>& results) const {
    const ServerTime now = std::chrono::system_clock::now();
    std::vector<FeedItem> committed;
    for (std::size_t i = 0; i < items.size(); ++i) {
        const AppendItem& item = items[i];
        const AppendResult& result = results[i];
        const bool branched = result.fate == Fate::branched;
        if (!branched && result.fate != Fate::appended) continue;
        const auto kind = branched ? FeedItem::Kind::branch : FeedItem::Kind::entry;
        committed.push_back({result.position, kind, item.match, item.number, item.epoch, item.id,
                             item.device, item.hash, result.branch, now, item.bytes, item.signature,
                             branched ? nullptr : item.read});
    }
    if (!committed.empty()) committed_(committed);
}

/// An exception that nobody expected costs this append, before anybody is answered.
Result<std::vector<AppendResult>> Ingest::append_guarded(const std::vector<Submission>& group) {
    Result<std::vector<AppendResult>> results =
        Status::failed(StatusCode::internal, "the server met a fault of its own",
                       "send it again; what is kept already is recognised");
    (void)appending_.run([&] { results = append(group); });
    return results;
}

/// An answer that fails costs its own call: the others of the group are answered.
void Ingest::give(const Submission& submission, Result<std::vector<AppendResult>> results) {
    (void)answering_.run([&] { submission.answer(std::move(results)); });
}

void Ingest::commit(std::vector<Submission> group) {
    const auto began = std::chrono::steady_clock::now();
    auto results = append_guarded(group);
    note(results.status());
    if (!results.ok() && !results.status().passing() && group.size() > 1) {
        // One of them cannot be stored; the others must not fail with it.
        for (Submission& submission : group) {
            std::vector<Submission> alone;
            alone.push_back(std::move(submission));
            commit(std::move(alone));
        }
        return;
    }
    if (!results.ok()) {
        for (Submission& submission : group) give(submission, results.status());
        const bool slow = std::chrono::steady_clock::now() - began >= asks_again_within;
        if (slow && results.status().passing()) turn_away_waiting(results.status());
        return;
    }
    auto next = results->begin();
    for (Submission& submission : group) {
        const auto end = next + static_cast<std::ptrdiff_t>(submission.items.size());
        give(submission, std::vector<AppendResult>(std::make_move_iterator(next),
                                                   std::make_move_iterator(end)));
        next = end;
    }
}

}  // namespace courthand::server
