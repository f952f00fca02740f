// A server in memory that cuts, forgets, fences and refuses at will, for tests of the sync engine.
#pragma once

#include <algorithm>
#include <atomic>
#include <map>
#include <mutex>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "client/journal/chain_hash.h"
#include "client/sync/courier.h"
#include "courthand/sim/match_player.h"
#include "wire/chain.h"
#include "wire/uuid.h"

namespace courthand::client {

/// A server in memory. Thread-safe.
class MemoryServer final : public Courier {
  public:
    CallResult<v1::PushResponse> push(const v1::PushRequest& request) override {
        const std::scoped_lock lock{mutex_};
        ++pushes;
        if (cut_before()) return CallError{CallError::Kind::unreachable, "cut on the way there"};
        if (!refusal.empty()) return CallError{CallError::Kind::refused, refusal};
        ++pushes_of_[request.match_id()];
        if (failing_.count(request.match_id()) != 0)
            return CallError{CallError::Kind::failed, "the server cannot answer for this match"};
        v1::PushResponse response;
        *response.mutable_header() = header_;
        // Only a match that is not known may be opened by a table.
        if (request.opened_here().match_id() == request.match_id())
            plans_.try_emplace(request.match_id(), request.opened_here());
        auto& record = records_[request.match_id()];
        for (const auto& entry : request.entries()) {
            signatures_[entry.data()] = entry.signature();
            take(entry.data(), record, response);
        }
        claim(request.match_id());
        response.set_head_seq(static_cast<std::uint32_t>(record.size()));
        if (cut_before() || std::exchange(drop_answer_, false))
            return CallError{CallError::Kind::unreachable, "cut on the way back"};
        return response;
    }
    CallResult<v1::FetchMatchResponse> fetch(const v1::FetchMatchRequest& request) override {
        const std::scoped_lock lock{mutex_};
        if (cut_before()) return CallError{CallError::Kind::unreachable, "cut"};
        ++fetches;
        v1::FetchMatchResponse response = on_court_;
        *response.mutable_header() = header_;
        if (request.which_case() == v1::FetchMatchRequest::kMatchId &&
            request.match_id() != on_court_.match().match_id()) {
            if (fetch_fails_.count(request.match_id()) != 0)
                return CallError{CallError::Kind::failed, "the server cannot answer for it now"};
            if (hidden_.count(request.match_id()) != 0)
                return CallError{CallError::Kind::refused, "the match is on another court"};
            const auto plan = plans_.find(request.match_id());
            const auto moved = moved_.find(request.match_id());
            if (moved != moved_.end()) {
                response = moved->second;
                *response.mutable_header() = header_;
            } else if (plan == plans_.end()) {
                return CallError{CallError::Kind::not_known, "the match is not known here"};
            } else {
                response.clear_writer();
                response.clear_asked();
                *response.mutable_match() = plan->second;
            }
        }
        const auto& record = records_[response.match().match_id()];
        for (std::size_t i = request.after_seq();
             i < record.size() && i < request.after_seq() + 50U; ++i) {
            response.add_entries()->set_data(record[i]);
            response.mutable_entries(response.entries_size() - 1)
                ->set_signature(signatures_[record[i]]);
        }
        response.set_head_seq(static_cast<std::uint32_t>(record.size()));
        if (!record.empty()) response.set_head_hash(chain_hash(record.back()));
        return response;
    }
    /// A device asks; a person decides (`answer_wish`).
    CallResult<v1::GrantWriterResponse> grant(const v1::GrantWriterRequest& request) override {
        const std::scoped_lock lock{mutex_};
        ++grants;
        v1::GrantWriterResponse response;
        *response.mutable_writer() = on_court_.writer();
        if (!request.take_over()) {
            response.set_outcome(v1::GrantWriterResponse::OUTCOME_HELD_BY_OTHER);
            return response;
        }
        response.set_outcome(v1::GrantWriterResponse::OUTCOME_ASKED);
        on_court_.mutable_asked()->set_device_id(device);
        return response;
    }
    void watch(const v1::WatchRequest& request, WatchListener listener) override {
        v1::WatchResponse first;
        {
            std::unique_lock lock{mutex_};
            cursors_.push_back(request.cursor());
            if (!watch_refusal_.empty()) {
                const CallError end{CallError::Kind::refused, watch_refusal_};
                lock.unlock();
                return listener.ended(end);
            }
            listener_ = listener;
            first.mutable_snapshot()->set_snapshot_complete(true);
            *first.mutable_header() = header_;
            first.set_cursor("start");
        }
        listener.step(first);
    }
    void stop_watch() override {
        const std::scoped_lock lock{mutex_};
        listener_ = {};
    }
    void cancel() override {}

    void set_header(const std::string& generation, const std::string& version) {
        const std::scoped_lock lock{mutex_};
        header_.set_server_id("server-1");
        header_.set_generation(generation);
        header_.set_server_version(version);
    }
    void set_writer(std::uint32_t epoch, const std::string& device_id) {
        const std::scoped_lock lock{mutex_};
        on_court_.mutable_writer()->set_number(epoch);
        on_court_.mutable_writer()->set_grant_id(std::string(16, 'g'));
        on_court_.mutable_writer()->set_device_id(device_id);
        on_court_.clear_asked();
    }
    [[nodiscard]] bool wished() {
        const std::scoped_lock lock{mutex_};
        return on_court_.has_asked();
    }
    /// The desk or the head official answers; the watch tells it.
    void answer_wish(bool yes) {
        if (yes) {
            std::uint32_t epoch = 0;
            {
                const std::scoped_lock lock{mutex_};
                epoch = on_court_.writer().number() + 1;
            }
            set_writer(epoch, device);
        }
        {
            const std::scoped_lock lock{mutex_};
            on_court_.clear_asked();
        }
        tell_change();
    }
    /// Another spare device asks in the place of whoever asked before.
    void let_another_ask(const std::string& device_id) {
        {
            const std::scoped_lock lock{mutex_};
            on_court_.mutable_asked()->set_device_id(device_id);
        }
        tell_change();
    }
    /// The desk puts the match of the court on another one; this court has none then.
    void move_to_court(std::uint32_t court) {
        {
            const std::scoped_lock lock{mutex_};
            v1::FetchMatchResponse& moved = moved_[on_court_.match().match_id()];
            moved = std::exchange(on_court_, {});
            moved.mutable_match()->set_court(court);
            moved.mutable_match()->set_status(v1::MATCH_STATUS_IN_PLAY);
            moved.clear_following();
        }
        tell_change();
    }
    void tell_change() {
        v1::WatchResponse change;
        change.mutable_change();
        tell(change);
    }
    /// The next answers to this entry (of that device; empty: of any) are INVALID with that cause.
    void refuse(std::uint32_t seq, int times, v1::PushResult::Cause cause,
                const std::string& of_device = {}) {
        const std::scoped_lock lock{mutex_};
        refuse_seq_ = seq;
        refuse_device_ = of_device;
        refuse_times_ = times;
        refuse_cause_ = cause;
    }
    void drop_next_answer() {
        const std::scoped_lock lock{mutex_};
        drop_answer_ = true;
    }
    /// What lies on the branch turns out to continue the record.
    void promote(const std::string& match_id) {
        const std::scoped_lock lock{mutex_};
        auto& branch = branches_[match_id];
        auto& record = records_[match_id];
        record.insert(record.end(), branch.begin(), branch.end());
        branch.clear();
        fenced_ = false;
    }
    /// The match is on a court that this device may not see.
    void hide(const std::string& match_id, bool on = true) {
        const std::scoped_lock lock{mutex_};
        if (on)
            hidden_.insert(match_id);
        else
            hidden_.erase(match_id);
    }
    /// Whatever is pushed of this match, the server fails.
    void fail_for(const std::string& match_id, bool on = true) {
        const std::scoped_lock lock{mutex_};
        if (on)
            failing_.insert(match_id);
        else
            failing_.erase(match_id);
    }
    /// Whoever asks for this match alone, the server fails.
    void fail_fetch_of(const std::string& match_id, bool on = true) {
        const std::scoped_lock lock{mutex_};
        if (on)
            fetch_fails_.insert(match_id);
        else
            fetch_fails_.erase(match_id);
    }
    /// The match has left the court, and that device writes it now. The watch does not tell of it.
    void hand_elsewhere(const v1::Match& match, const std::string& device_id) {
        const std::scoped_lock lock{mutex_};
        v1::FetchMatchResponse& there = moved_[match.match_id()];
        *there.mutable_match() = match;
        there.mutable_writer()->set_number(2);
        there.mutable_writer()->set_grant_id(std::string(16, 'h'));
        there.mutable_writer()->set_device_id(device_id);
    }
    [[nodiscard]] int pushes_of(const std::string& match_id) {
        const std::scoped_lock lock{mutex_};
        return pushes_of_[match_id];
    }
    void forget_branch(const std::string& match_id) {
        const std::scoped_lock lock{mutex_};
        branches_[match_id].clear();
    }
    /// As after a restore from before the match was made.
    void make_unknown(const std::string& match_id) {
        const std::scoped_lock lock{mutex_};
        plans_.erase(match_id);
        records_[match_id].clear();
        if (on_court_.match().match_id() == match_id) on_court_.Clear();
    }
    void set_record(const std::string& match_id, std::vector<std::string> bytes) {
        const std::scoped_lock lock{mutex_};
        records_[match_id] = std::move(bytes);
    }
    void sign_as(const std::string& entry, const std::string& signature) {
        const std::scoped_lock lock{mutex_};
        signatures_[entry] = signature;
    }
    [[nodiscard]] std::vector<std::string> branch(const std::string& match_id) {
        const std::scoped_lock lock{mutex_};
        return branches_[match_id];
    }
    [[nodiscard]] std::string signature(const std::string& entry) {
        const std::scoped_lock lock{mutex_};
        return signatures_[entry];
    }
    void put_on_court(const v1::FetchMatchResponse& match) {
        const std::scoped_lock lock{mutex_};
        on_court_ = match;
        plans_[match.match().match_id()] = match.match();
        for (const v1::Match& later : match.following()) plans_[later.match_id()] = later;
    }
    /// Every watch ends at once with these words; empty: no more.
    void refuse_watch(const std::string& words) {
        const std::scoped_lock lock{mutex_};
        watch_refusal_ = words;
    }
    void tell(const v1::WatchResponse& step) {
        WatchListener listener;
        {
            const std::scoped_lock lock{mutex_};
            listener = listener_;
        }
        if (listener.step) listener.step(step);
    }
    void end_watch() {
        WatchListener listener;
        {
            const std::scoped_lock lock{mutex_};
            listener = std::exchange(listener_, {});
        }
        if (listener.ended) listener.ended({CallError::Kind::unreachable, "the watch was cut"});
    }
    std::vector<std::string> record(const std::string& match_id) {
        const std::scoped_lock lock{mutex_};
        return records_[match_id];
    }
    void forget_after(const std::string& match_id, std::size_t count) {
        const std::scoped_lock lock{mutex_};
        records_[match_id].resize(count);
    }
    void set_cut(unsigned per_mille) {
        const std::scoped_lock lock{mutex_};
        cut_per_mille_ = per_mille;
    }
    void set_refusal(const std::string& words) {
        const std::scoped_lock lock{mutex_};
        refusal = words;
    }
    void set_fenced(bool on) {
        const std::scoped_lock lock{mutex_};
        fenced_ = on;
    }
    void set_lossy(bool on) {
        const std::scoped_lock lock{mutex_};
        lossy_ = on;
    }

    std::string device;
    std::string refusal;
    std::atomic<int> pushes{0};
    std::atomic<int> fetches{0};
    std::atomic<int> grants{0};
    std::vector<std::string> cursors() {
        const std::scoped_lock lock{mutex_};
        return cursors_;
    }

  private:
    bool cut_before() { return dice_.chance(cut_per_mille_); }

    void take(const std::string& bytes, std::vector<std::string>& record,
              v1::PushResponse& response) {
        v1::PushResult& result = *response.add_results();
        const auto entry = wire::parse_entry(bytes);
        if (!entry) return result.set_outcome(v1::PushResult::OUTCOME_INVALID);
        result.set_seq(entry->seq());
        if (hidden_.count(entry->match_id()) != 0) {
            result.set_cause(v1::PushResult::CAUSE_OTHER_COURT);
            return result.set_outcome(v1::PushResult::OUTCOME_INVALID);
        }
        if (plans_.count(entry->match_id()) == 0) {
            result.set_cause(v1::PushResult::CAUSE_UNKNOWN_MATCH);
            return result.set_outcome(v1::PushResult::OUTCOME_INVALID);
        }
        const bool meant = refuse_device_.empty() || entry->device_id() == refuse_device_;
        if (entry->seq() == refuse_seq_ && refuse_times_ > 0 && meant) {
            --refuse_times_;
            result.set_cause(refuse_cause_);
            result.set_message("it is not known here");
            return result.set_outcome(v1::PushResult::OUTCOME_INVALID);
        }
        if (entry->seq() <= record.size() && record[entry->seq() - 1] == bytes)
            return result.set_outcome(v1::PushResult::OUTCOME_ALREADY_HAD);
        auto& branch = branches_[entry->match_id()];
        if (std::find(branch.begin(), branch.end(), bytes) != branch.end()) {
            result.set_branch(1);
            return result.set_outcome(v1::PushResult::OUTCOME_ALREADY_HAD);
        }
        const bool fenced = fenced_ || entry->epoch() < on_court_.writer().number();
        if (fenced || entry->seq() <= record.size()) {
            branch.push_back(bytes);
            result.set_branch(1);
            return result.set_outcome(v1::PushResult::OUTCOME_STORED_ON_BRANCH);
        }
        // A server put back from a backup forgets what it had said it has.
        if (lossy_ && dice_.chance(5)) record.resize(record.size() / 2);
        if (entry->seq() != record.size() + 1) {
            const bool follows_branch = std::any_of(
                branch.begin(), branch.end(),
                [&](const std::string& kept) { return chain_hash(kept) == entry->prev_hash(); });
            if (!follows_branch) return result.set_outcome(v1::PushResult::OUTCOME_GAP);
            branch.push_back(bytes);
            result.set_branch(1);
            return result.set_outcome(v1::PushResult::OUTCOME_STORED_ON_BRANCH);
        }
        record.push_back(bytes);
        result.set_outcome(v1::PushResult::OUTCOME_APPENDED);
    }

    /// A match nobody writes is its first sender's.
    void claim(const std::string& match_id) {
        const auto& record = records_[match_id];
        if (record.empty() || on_court_.match().match_id() != match_id) return;
        if (on_court_.writer().number() != 0) return;
        const auto entry = wire::parse_entry(record.front());
        on_court_.mutable_writer()->set_number(1);
        on_court_.mutable_writer()->set_grant_id(std::string(16, 'g'));
        on_court_.mutable_writer()->set_device_id(entry->device_id());
    }

    std::mutex mutex_;
    sim::Dice dice_{42};
    unsigned cut_per_mille_ = 0;
    bool fenced_ = false;
    bool lossy_ = false;
    bool drop_answer_ = false;
    std::uint32_t refuse_seq_ = 0;
    int refuse_times_ = 0;
    std::string refuse_device_;
    v1::PushResult::Cause refuse_cause_{};
    v1::ResponseHeader header_;
    std::map<std::string, v1::Match> plans_;  ///< the matches that are known here
    std::string watch_refusal_;
    std::set<std::string> hidden_;
    std::map<std::string, v1::FetchMatchResponse> moved_;  ///< on other courts, by id
    std::set<std::string> failing_;
    std::set<std::string> fetch_fails_;
    std::map<std::string, int> pushes_of_;
    std::map<std::string, std::vector<std::string>> branches_;
    std::map<std::string, std::string> signatures_;  ///< by the bytes of the entry
    v1::FetchMatchResponse on_court_;
    std::map<std::string, std::vector<std::string>> records_;
    WatchListener listener_;
    std::vector<std::string> cursors_;
};

}  // namespace courthand::client
