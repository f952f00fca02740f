#include "client/sync/sync_engine.h"

#include <algorithm>
#include <cstring>
#include <exception>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "client/journal/chain_hash.h"
#include "client/session/fork_words.h"
#include "client/session/journaled_match.h"
#include "client/session/unreadable.h"
#include "client/sync/refusal.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

/// What one has patience with, besides the matches.
constexpr const char* the_court = "the court";

/// A notice sent again has the same name, one about the same alert with another word has not.
std::string setting_of(const v1::RulingNotice& notice, const std::string& bytes) {
    std::string name = ruling_setting(notice.alert_id()) + "/";
    const std::string hash = chain_hash(bytes);
    for (std::size_t i = 0; i < 8; ++i)
        name += fmt::format("{:02x}", static_cast<unsigned char>(hash[i]));
    return name;
}

/// What a person must do about entries that are not in the record, or rulings that are not in the
/// matches; empty when nothing.
std::string words_about(const Journal& journal, const std::string& match_id,
                        const SyncStatus& status, std::size_t aside, bool fenced,
                        std::size_t rulings_here) {
    if (status.refused > aside) {
        if (const auto refusal = kept_refusal(journal, match_id)) return words_of(*refusal);
        return "The server does not take all entries of this match. Tell the desk.";
    }
    if (aside > 0)
        return fmt::format(
            "The match went on from the server's record, without {} entries of this device that "
            "the server does not take. They are kept here and offered again every minute. Tell the "
            "head official.",
            aside);
    if (status.beside > 0)
        return fmt::format("{}: {} entries of this device are kept beside the record. {}",
                           fenced ? "Another device writes this match"
                                  : "The server has other entries in their place",
                           status.beside, words_of_decision(journal, match_id, status.beside));
    if (rulings_here > 0)
        return "A ruling of the head official is not in the record yet: it waits until an earlier "
               "fault of the same kind is ruled here.";
    if (status.rulings > 0)
        return "A ruling of the head official on an earlier match of this table is not in its "
               "record yet. Tell the head official if it stays so.";
    return {};
}

/// Whoever cannot reach the server is told that nothing is lost meanwhile.
std::string words_of(const CallError& error) {
    if (error.kind != CallError::Kind::unreachable) return error.message;
    return error.message + " Everything is saved on this device and will be sent later.";
}

}  // namespace

std::uint64_t jitter_seed(const Device& device) {
    const std::string hash = chain_hash(device.id);
    std::uint64_t seed = 0;
    std::memcpy(&seed, hash.data(), sizeof seed);
    return seed;
}

bool ends_the_round(const CallError& error) noexcept {
    return error.kind == CallError::Kind::unreachable || error.kind == CallError::Kind::busy ||
           error.kind == CallError::Kind::cancelled;
}

CallError of_journal(const JournalError& error) {
    return {CallError::Kind::failed, error.message};
}

SyncEngine::SyncEngine(Journal& journal, Courier& courier, Device device, Options options)
    : journal_{journal},
      courier_{courier},
      device_{std::move(device)},
      self_{id_bytes(device_)},
      options_{std::move(options)},
      back_off_{options_.back_off, options_.seed != 0 ? options_.seed : jitter_seed(device_)},
      patience_{options_.back_off, options_.seed != 0 ? options_.seed : jitter_seed(device_),
                options_.now},
      watch_{courier,
             {options_.longest_silence, options_.now, options_.back_off,
              options_.seed != 0 ? options_.seed : jitter_seed(device_)},
             [this] { wake(); }},
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
    watch_.stop();
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

void SyncEngine::ask_take_over(const std::string& match_id) {
    {
        const std::scoped_lock lock{mutex_};
        wish_match_ = match_id;
        wish_.wish = Writing::Wish::asking;
        wish_.words.clear();
        work_waits_ = true;
    }
    wake_.notify_all();
}

SyncStatus SyncEngine::status(const std::string& match_id) const {
    SyncStatus status;
    std::size_t aside = 0;
    for (const Journal::Tally& one : journal_.unsettled()) {
        if (one.match_id == match_id) {
            aside = one.aside;
            status.waiting = one.waiting;
            status.refused = one.refused + one.aside;
            status.beside = one.beside;
            continue;
        }
        // Of a match whose sheet is lost nothing is known but that it is not all sent.
        if (const auto sheet = kept_sheet(one.match_id); sheet && sheet->practice) continue;
        if (nowhere_known(journal_, one.match_id)) continue;
        status.elsewhere += one.waiting + one.refused + one.beside + one.aside;
    }
    const Rulings rulings = rulings_waiting(match_id);
    status.rulings = rulings.here + rulings.of_others;
    const auto sheet = kept_sheet(match_id);
    const bool fenced = sheet && sheet->writer.held_by_other(self_);
    std::string about = words_about(journal_, match_id, status, aside, fenced, rulings.here);
    if (about.empty()) about = words_about_place(match_id);
    const std::scoped_lock lock{mutex_};
    status.link = link_;
    // Of a practice nothing goes to the server, whether it can be reached or not.
    const bool practice = sheet && sheet->practice;
    status.last_error = error_.empty() || practice ? about : error_;
    if (rulings_held_up_ && error_.empty() && status.refused + status.beside == 0)
        status.last_error = fmt::format(
            "{} rulings of one match wait at this table, and more come when those are recorded. "
            "Open that match, or tell the head official.",
            most_waiting_rulings);
    return status;
}

/// A device that only looks on has nothing to record: the one that writes gets them too.
SyncEngine::Rulings SyncEngine::rulings_waiting(const std::string& match_id) const {
    std::map<std::string, std::size_t> counts;
    for (const auto& [name, bytes] : journal_.settings(ruling_prefix)) {
        v1::RulingNotice notice;
        if (!notice.ParseFromString(bytes)) continue;
        if (const auto id = wire::Uuid::from_bytes(notice.match_id())) ++counts[id->to_text()];
    }
    Rulings waiting;
    for (const auto& [id, count] : counts) {
        const auto sheet = kept_sheet(id);
        if (!sheet || sheet->writer.held_by_other(self_)) continue;
        (id == match_id ? waiting.here : waiting.of_others) += count;
    }
    return waiting;
}

Writing SyncEngine::wish(const std::string& match_id) const {
    const std::scoped_lock lock{mutex_};
    return wish_match_ == match_id ? wish_ : Writing{};
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
            failure = CallError{CallError::Kind::failed, unreadable_words(disk.what())};
        }
        report(failure);
        const auto until_next = failure ? back_off_.next() : rest();
        if (!failure) back_off_.reset();
        lock.lock();
        if (stop_) break;
        // New entries do not cut the wait after a failure short: they would only fail as well.
        wake_.wait_for(lock, until_next,
                       [this, &failure] { return stop_ || (!failure && work_waits_); });
    }
    lock.unlock();
    // When it cannot be stored, the watch brings a little again.
    if (held_cursor_) static_cast<void>(journal_.store({}, with_cursor({})));
}

std::chrono::milliseconds SyncEngine::rest() const {
    using std::chrono::milliseconds;
    auto most = std::min(options_.look_again, watch_.time_left());
    if (held_cursor_)
        most = std::clamp(std::chrono::ceil<milliseconds>(held_cursor_->due - options_.now()),
                          milliseconds{1}, most);
    if (pass_)
        most = std::clamp(std::chrono::ceil<milliseconds>(pass_->next - options_.now()),
                          milliseconds{1}, most);
    return patience_.left(most);
}

void SyncEngine::report(const Failure& failure) {
    const bool watching = watch_.running();
    const Failure fault = failure ? std::nullopt : watch_.fault();
    {
        const std::scoped_lock lock{mutex_};
        if (fault) {
            // Entries go out, and yet nothing of the venue comes in.
            link_ = SyncStatus::Link::offline;
            error_ = words_of(*fault);
        } else if (!failure) {
            link_ = SyncStatus::Link::online;
            error_ = patience_.words();
        } else if (failure->kind != CallError::Kind::cancelled) {
            const bool answered = failure->kind != CallError::Kind::unreachable;
            link_ = answered && watching ? SyncStatus::Link::online : SyncStatus::Link::offline;
            error_ = words_of(*failure);
        }
    }
    changed();
}

void SyncEngine::changed() {
    if (on_change_) on_change_();
}

void SyncEngine::hear(const v1::ResponseHeader& header) {
    const ServerMark mark = ServerMark::of(header);
    if (!mark.told()) return;
    const std::scoped_lock lock{mutex_};
    if (mark == heard_) return;
    heard_ = mark;
    // What another program or another database refused, this one may take.
    offer_ = true;
    work_waits_ = true;
}

SyncEngine::Failure SyncEngine::work() {
    if (auto failure = keep_watching()) return failure;
    if (auto failure = store_steps()) return failure;
    if (auto failure = store_cursor()) return failure;
    moved_ = false;
    patience_.begin_round();
    for (const auto step : {&SyncEngine::look_if_wanted, &SyncEngine::ask_if_wanted,
                            &SyncEngine::push_all, &SyncEngine::compare_all})
        if (Failure failure = (this->*step)()) return failure;
    patience_.end_round();
    const std::scoped_lock lock{mutex_};
    // The look had to wait for entries that are with the server now.
    if (look_at_court_ && moved_) work_waits_ = true;
    return std::nullopt;
}

/// Only what would fail for every match ends the round; with the rest one has patience.
SyncEngine::Failure SyncEngine::hold(const std::string& subject, Failure failure) {
    if (!failure || ends_the_round(*failure)) return failure;
    patience_.failed(subject, *std::move(failure));
    return std::nullopt;
}

SyncEngine::Failure SyncEngine::keep_watching() {
    if (device_.court == 0) return std::nullopt;
    Failure end = watch_.keep(device_.court, held_cursor_ ? held_cursor_->cursor
                                                          : journal_.setting(watch_cursor_setting));
    if (end) {
        // A new stream may have missed a change of the court.
        const std::scoped_lock lock{mutex_};
        look_at_court_ = true;
    }
    return end;
}

SyncEngine::Failure SyncEngine::store_steps() {
    const auto steps = watch_.steps();
    if (steps.empty()) return std::nullopt;
    Settings settings;
    std::string cursor;
    bool look = false;
    std::size_t kept = 0;
    bool full = false;
    for (const v1::WatchResponse& step : steps) {
        hear(step.header());
        look = look || step.has_change() || step.has_resync() ||
               (step.has_snapshot() && step.snapshot().snapshot_complete()) ||
               (step.has_entries() && follows_);
        full = full || (step.has_ruling() && !keep_ruling(step.ruling(), settings));
        // The cursor never passes a ruling that is not kept: it comes again when there is room.
        if (full) continue;
        if (!step.cursor().empty()) cursor = step.cursor();
        ++kept;
    }
    // The cursor goes into the same transaction as what it covers; one that covers nothing, as
    // after each acknowledged entry, goes with the next commit.
    if (settings.empty()) {
        if (!cursor.empty()) hold_cursor(cursor);
    } else {
        if (!cursor.empty()) settings.emplace_back(watch_cursor_setting, cursor);
        if (const auto error = journal_.store({}, settings)) return of_journal(*error);
        if (!cursor.empty()) held_cursor_.reset();
    }
    watch_.done(kept);
    {
        const std::scoped_lock lock{mutex_};
        look_at_court_ = look_at_court_ || look;
        rulings_held_up_ = full;
    }
    changed();
    return std::nullopt;
}

void SyncEngine::hold_cursor(const std::string& cursor) {
    const auto due = held_cursor_ ? held_cursor_->due : options_.now() + options_.cursor_rest;
    held_cursor_ = HeldCursor{cursor, due};
}

SyncEngine::Settings SyncEngine::with_cursor(Settings settings) const {
    if (held_cursor_) settings.emplace_back(watch_cursor_setting, held_cursor_->cursor);
    return settings;
}

SyncEngine::Failure SyncEngine::store_cursor() {
    if (!held_cursor_ || options_.now() < held_cursor_->due) return std::nullopt;
    if (const auto error = journal_.store({}, with_cursor({}))) return of_journal(*error);
    held_cursor_.reset();
    return std::nullopt;
}

/// False when its match has no room for one more.
bool SyncEngine::keep_ruling(const v1::RulingNotice& notice, Settings& settings) const {
    const std::string bytes = notice.SerializeAsString();
    const std::string name = setting_of(notice, bytes);
    // One that was dealt with keeps its name with nothing in it, and stays so.
    if (journal_.has_setting(name)) return true;
    Settings waiting = journal_.settings(ruling_prefix);
    waiting.insert(waiting.end(), settings.begin(), settings.end());
    const auto same_match = [&notice](const auto& one) {
        v1::RulingNotice other;
        return one.first.rfind(ruling_prefix, 0) == 0 && other.ParseFromString(one.second) &&
               other.match_id() == notice.match_id();
    };
    const auto count = std::count_if(waiting.begin(), waiting.end(), same_match);
    if (static_cast<std::size_t>(count) >= most_waiting_rulings) return false;
    settings.emplace_back(name, bytes);
    return true;
}

SyncEngine::Failure SyncEngine::look_if_wanted() {
    if (!patience_.due(the_court)) return std::nullopt;
    // The watch says nothing of a match that has left the court once another device writes it.
    const bool rulings_elsewhere = rulings_waiting(court_match()).of_others > 0;
    {
        const std::scoped_lock lock{mutex_};
        // An answer to a wish must not be missed, even if the watch does not bring it.
        const bool expected = wish_.wish == Writing::Wish::asked || rulings_elsewhere ||
                              options_.now() - fetched_ >= options_.fetch_again;
        if (!std::exchange(look_at_court_, false) && !expected) return std::nullopt;
    }
    Failure failure = fetch_court();
    if (failure) {
        const std::scoped_lock lock{mutex_};
        look_at_court_ = true;
    } else {
        fetched_ = options_.now();
    }
    return hold(the_court, std::move(failure));
}

}  // namespace courthand::client
