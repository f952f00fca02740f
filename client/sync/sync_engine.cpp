#include "client/sync/sync_engine.h"

#include <algorithm>
#include <exception>
#include <utility>

#include <fmt/format.h>

#include "client/journal/chain_hash.h"
#include "client/session/journaled_match.h"
#include "client/sync/push_order.h"
#include "wire/chain.h"
#include "wire/message_limits.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

std::string id_text(const std::string& bytes) {
    const auto id = wire::Uuid::from_bytes(bytes);
    return id ? id->to_text() : std::string{};
}

JournalEntry acknowledged_entry(const std::string& match_id, const std::string& bytes) {
    JournalEntry row;
    row.match_id = match_id;
    row.bytes = bytes;
    row.hash = chain_hash(bytes);
    row.standing = EntryStanding::acknowledged;
    if (const auto entry = wire::parse_entry(bytes)) {
        row.epoch = entry->epoch();
        row.seq = entry->seq();
        row.prev_hash = entry->prev_hash();
        row.entry_id = id_text(entry->entry_id());
    }
    return row;
}

CallError of_journal(const JournalError& error) {
    return {CallError::Kind::failed, error.message};
}

}  // namespace

SyncEngine::SyncEngine(Journal& journal, Courier& courier, Device device, Options options)
    : journal_{journal},
      courier_{courier},
      device_{std::move(device)},
      options_{options},
      back_off_{options.back_off, options.seed},
      court_match_{journal.setting(court_match_setting)} {}

SyncEngine::SyncEngine(Journal& journal, Courier& courier, Device device)
    : SyncEngine{journal, courier, std::move(device), Options{}} {}

SyncEngine::~SyncEngine() {
    stop();
}

void SyncEngine::start(std::function<void()> on_change) {
    on_change_ = std::move(on_change);
    thread_ = std::thread{[this] { run(); }};
}

void SyncEngine::stop() {
    {
        const std::scoped_lock lock{mutex_};
        stop_ = true;
    }
    wake_.notify_all();
    if (!thread_.joinable()) return;
    courier_.cancel();
    thread_.join();
    courier_.stop_watch();
}

void SyncEngine::wake() {
    {
        const std::scoped_lock lock{mutex_};
        work_waits_ = true;
    }
    wake_.notify_all();
}

void SyncEngine::look_at_court() {
    {
        const std::scoped_lock lock{mutex_};
        look_at_court_ = true;
        work_waits_ = true;
    }
    wake_.notify_all();
}

SyncStatus SyncEngine::status(const std::string& match_id) const {
    SyncStatus status;
    status.waiting = journal_.count(match_id, EntryStanding::waiting);
    const std::size_t beside = journal_.count(match_id, EntryStanding::on_branch);
    const std::scoped_lock lock{mutex_};
    status.link = link_;
    status.last_error = error_;
    if (status.last_error.empty() && beside > 0)
        status.last_error = fmt::format(
            "Another device writes this match: {} entries of this one are kept beside the record. "
            "Ask the head official which record counts.",
            beside);
    return status;
}

std::string SyncEngine::court_match() const {
    const std::scoped_lock lock{mutex_};
    return court_match_;
}

void SyncEngine::run() {
    std::unique_lock lock{mutex_};
    while (!stop_) {
        work_waits_ = false;
        if (link_ == SyncStatus::Link::offline) link_ = SyncStatus::Link::connecting;
        lock.unlock();
        Failure failure;
        try {
            failure = work();
        } catch (const std::exception& disk) {
            failure = CallError{CallError::Kind::failed,
                                fmt::format("The journal cannot be read: {}.", disk.what())};
        }
        report(failure);
        lock.lock();
        if (stop_) break;
        if (failure) {
            // New entries do not cut the wait short: they would only fail as well.
            wake_.wait_for(lock, back_off_.next(), [this] { return stop_; });
        } else {
            back_off_.reset();
            wake_.wait_for(lock, options_.look_again, [this] { return stop_ || work_waits_; });
        }
    }
}

void SyncEngine::report(const Failure& failure) {
    {
        const std::scoped_lock lock{mutex_};
        if (!failure) {
            link_ = SyncStatus::Link::online;
            error_.clear();
        } else if (failure->kind != CallError::Kind::cancelled) {
            const bool answered = failure->kind != CallError::Kind::unreachable;
            link_ = answered && watching_ ? SyncStatus::Link::online : SyncStatus::Link::offline;
            error_ = failure->message;
        }
    }
    changed();
}

void SyncEngine::changed() {
    if (on_change_) on_change_();
}

SyncEngine::Failure SyncEngine::work() {
    if (auto failure = keep_watching()) return failure;
    if (auto failure = store_steps()) return failure;
    bool look = false;
    {
        const std::scoped_lock lock{mutex_};
        look = std::exchange(look_at_court_, false);
    }
    const Failure court = look ? fetch_court() : std::nullopt;
    if (court) {
        const std::scoped_lock lock{mutex_};
        look_at_court_ = true;
    }
    // A match that another device writes must not keep our entries here: they go on a branch.
    if (court && court->kind != CallError::Kind::refused) return court;
    if (auto failure = push_all()) return failure;
    return court;
}

SyncEngine::Failure SyncEngine::keep_watching() {
    if (device_.court == 0) return std::nullopt;
    {
        const std::scoped_lock lock{mutex_};
        if (watch_overflow_) {
            steps_.clear();
            watch_end_.reset();
        }
        if (watch_end_) {
            const CallError end = *std::exchange(watch_end_, std::nullopt);
            watching_ = false;
            // A new stream may have missed a change of the court.
            look_at_court_ = true;
            return end;
        }
        if (watching_ && !watch_overflow_) return std::nullopt;
    }
    courier_.stop_watch();
    v1::WatchRequest request;
    request.set_court(device_.court);
    request.set_cursor(journal_.setting(watch_cursor_setting));
    {
        const std::scoped_lock lock{mutex_};
        watching_ = true;
        watch_overflow_ = false;
        watch_end_.reset();
    }
    courier_.watch(request, {[this](v1::WatchResponse step) { take_step(std::move(step)); },
                             [this](CallError end) {
                                 {
                                     const std::scoped_lock lock{mutex_};
                                     watch_end_ = std::move(end);
                                     work_waits_ = true;
                                 }
                                 wake_.notify_all();
                             }});
    return std::nullopt;
}

void SyncEngine::take_step(v1::WatchResponse step) {
    {
        const std::scoped_lock lock{mutex_};
        if (steps_.size() >= most_waiting_steps)
            watch_overflow_ = true;
        else
            steps_.push_back(std::move(step));
        work_waits_ = true;
    }
    wake_.notify_all();
}

SyncEngine::Failure SyncEngine::store_steps() {
    std::deque<v1::WatchResponse> steps;
    {
        const std::scoped_lock lock{mutex_};
        steps = steps_;
    }
    if (steps.empty()) return std::nullopt;
    std::vector<std::pair<std::string, std::string>> settings;
    bool look = false;
    for (const v1::WatchResponse& step : steps) {
        look = look || step.has_change() || step.has_resync() ||
               (step.has_snapshot() && step.snapshot().snapshot_complete());
        if (step.has_ruling()) {
            const std::string name = ruling_setting(step.ruling().alert_id());
            settings.emplace_back(name, step.ruling().SerializeAsString());
        }
        if (!step.cursor().empty()) settings.emplace_back(watch_cursor_setting, step.cursor());
    }
    // The cursor goes into the same transaction as what it covers.
    if (const auto error = journal_.store({}, settings)) return of_journal(*error);
    {
        const std::scoped_lock lock{mutex_};
        steps_.erase(steps_.begin(), steps_.begin() + static_cast<std::ptrdiff_t>(steps.size()));
        look_at_court_ = look_at_court_ || look;
    }
    changed();
    return std::nullopt;
}

SyncEngine::Failure SyncEngine::fetch_court() {
    if (device_.court == 0) return std::nullopt;
    v1::FetchMatchRequest request;
    request.set_court(device_.court);
    // Only the sheet is wanted; the record is written here.
    request.set_after_seq(UINT32_MAX);
    auto result = courier_.fetch(request);
    if (auto* error = std::get_if<CallError>(&result)) return std::move(*error);
    auto& answer = std::get<v1::FetchMatchResponse>(result);
    std::vector<StoredMatch> matches;
    std::string match_id;
    std::string following;
    Failure held;
    if (answer.has_match()) {
        match_id = id_text(answer.match().match_id());
        held = obtain_writer(answer);
        if (held && held->kind != CallError::Kind::refused) return held;
        if (auto failure = resend_what_is_missing(answer)) return failure;
        if (!held)
            if (auto failure = take_back(answer)) return failure;
        matches.push_back(keep(answer));
        if (auto failure = fetch_ahead(answer, matches)) return failure;
        for (std::size_t i = 1; i < matches.size(); ++i)
            following += (i > 1 ? "," : "") + matches[i].match_id;
    }
    if (const auto error = journal_.store(
            matches, {{court_match_setting, match_id}, {court_following_setting, following}}))
        return of_journal(*error);
    {
        const std::scoped_lock lock{mutex_};
        court_match_ = match_id;
    }
    changed();
    return held;
}

SyncEngine::Failure SyncEngine::fetch_ahead(const v1::FetchMatchResponse& court,
                                            std::vector<StoredMatch>& matches) {
    const int count = std::min(court.following_size(), most_kept_ahead);
    for (int i = 0; i < count; ++i) {
        v1::FetchMatchRequest request;
        request.set_match_id(court.following(i).match_id());
        request.set_after_seq(UINT32_MAX);
        auto result = courier_.fetch(request);
        if (auto* error = std::get_if<CallError>(&result)) return std::move(*error);
        matches.push_back(keep(std::get<v1::FetchMatchResponse>(result)));
    }
    return std::nullopt;
}

SyncEngine::Failure SyncEngine::obtain_writer(v1::FetchMatchResponse& answer) {
    const auto id = wire::Uuid::from_text(device_.id);
    const bool ours =
        id && answer.writer().number() > 0 && answer.writer().device_id() == id->to_bytes();
    const std::string match_id = id_text(answer.match().match_id());
    // A record begun here without a grant claims the match with its first entry.
    const bool begun_here = answer.writer().number() == 0 && journal_.last_seq(match_id) > 0;
    const bool closed = answer.match().status() == v1::MATCH_STATUS_SIGNED ||
                        answer.match().status() == v1::MATCH_STATUS_CANCELLED;
    if (ours || begun_here || closed) return std::nullopt;
    v1::GrantWriterRequest request;
    request.set_match_id(answer.match().match_id());
    auto result = courier_.grant(request);
    if (auto* error = std::get_if<CallError>(&result)) return std::move(*error);
    const auto& grant = std::get<v1::GrantWriterResponse>(result);
    *answer.mutable_writer() = grant.writer();
    if (grant.outcome() == v1::GrantWriterResponse::OUTCOME_HELD_BY_OTHER)
        return CallError{CallError::Kind::refused,
                         fmt::format("Match {}: {}.", answer.match().number(), grant.message())};
    return std::nullopt;
}

/// The server holds more of a record that this device writes than its journal: after damage, or
/// after a hand-over. It comes back byte for byte, as long as it still follows what is here.
SyncEngine::Failure SyncEngine::take_back(const v1::FetchMatchResponse& answer) {
    const std::string match_id = id_text(answer.match().match_id());
    std::uint32_t last = journal_.last_seq(match_id);
    while (last < answer.head_seq()) {
        v1::FetchMatchRequest request;
        request.set_match_id(answer.match().match_id());
        request.set_after_seq(last);
        auto result = courier_.fetch(request);
        if (auto* error = std::get_if<CallError>(&result)) return std::move(*error);
        const auto& page = std::get<v1::FetchMatchResponse>(result);
        if (page.entries_size() == 0) return std::nullopt;
        for (const v1::EntryBytes& bytes : page.entries()) {
            const auto error = journal_.append(acknowledged_entry(match_id, bytes.data()));
            // The table has gone on meanwhile: then the two records differ, and a person chooses.
            if (error && error->kind == JournalError::Kind::out_of_order) return std::nullopt;
            if (error) return of_journal(*error);
            ++last;
        }
    }
    return std::nullopt;
}

SyncEngine::Failure SyncEngine::resend_what_is_missing(const v1::FetchMatchResponse& answer) {
    const std::string match_id = id_text(answer.match().match_id());
    if (answer.head_seq() >= journal_.last_seq(match_id)) return std::nullopt;
    if (const auto error = journal_.wait_again_after(match_id, answer.head_seq()))
        return of_journal(*error);
    return std::nullopt;
}

SyncEngine::Failure SyncEngine::push_all() {
    for (const std::string& match_id : journal_.matches_waiting())
        if (auto failure = push_match(match_id)) return failure;
    return std::nullopt;
}

SyncEngine::Failure SyncEngine::push_match(const std::string& match_id) {
    const auto stored = journal_.match(match_id);
    if (!stored) return std::nullopt;
    auto read = read_sheet(*stored);
    if (auto* wrong = std::get_if<std::string>(&read))
        return CallError{CallError::Kind::failed, std::move(*wrong)};
    const auto& sheet = std::get<StoredSheet>(read);
    if (sheet.practice) return std::nullopt;
    for (;;) {
        auto batch = journal_.waiting(match_id, wire::most_batch_entries);
        if (batch.empty()) return std::nullopt;
        const v1::PushRequest request = push_order(sheet, batch);
        auto result = courier_.push(request);
        if (auto* error = std::get_if<CallError>(&result)) return std::move(*error);
        bool moved = false;
        if (auto failure = settle(match_id, batch, std::get<v1::PushResponse>(result), moved))
            return failure;
        changed();
        if (!moved)
            return CallError{CallError::Kind::failed,
                             fmt::format("The server does not take entry {} of the match. Tell "
                                         "the tournament desk.",
                                         batch.front().seq)};
    }
}

SyncEngine::Failure SyncEngine::settle(const std::string& match_id,
                                       const std::vector<JournalEntry>& batch,
                                       const v1::PushResponse& response, bool& moved) {
    const PushOutcome outcome = read_answer(batch, response);
    if (!outcome.settled.empty())
        if (const auto error = journal_.settle(match_id, outcome.settled))
            return of_journal(*error);
    moved = !outcome.settled.empty();
    if (outcome.gap && outcome.head + 1 < batch.front().seq) {
        if (const auto error = journal_.wait_again_after(match_id, outcome.head))
            return of_journal(*error);
        // Progress only when something earlier waits again now.
        const auto again = journal_.waiting(match_id, 1);
        moved = moved || (!again.empty() && again.front().seq < batch.front().seq);
    }
    if (!outcome.problem.empty()) return CallError{CallError::Kind::failed, outcome.problem};
    return std::nullopt;
}

}  // namespace courthand::client
