// What the server may have forgotten: a database that was put back, or a standby that was behind,
// no longer has everything it acknowledged, and another record may fill the same numbers.
#include <algorithm>
#include <utility>

#include "client/journal/chain_hash.h"
#include "client/sync/sync_engine.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

/// What one has patience with, besides the matches.
constexpr const char* the_records = "the records";

}  // namespace

bool SyncEngine::compare_due(const ServerMark& heard) {
    const ServerMark before = ServerMark::from_bytes(journal_.setting(compared_setting));
    if (!heard.told() || !heard.may_have_forgotten(before)) return false;
    if (!compared_ || heard.generation != compared_generation_) return true;
    return options_.now() - *compared_ >= options_.compare_again;
}

/// One pass over every record of the journal after each change of server or database. It goes on
/// where it was after a cut, and from the beginning when the server is another one; only a finished
/// one is noted.
SyncEngine::Failure SyncEngine::compare_all() {
    ServerMark heard;
    {
        const std::scoped_lock lock{mutex_};
        heard = heard_;
    }
    if (pass_ && heard.may_have_forgotten(pass_->server)) pass_.reset();
    if (!pass_) {
        if (!compare_due(heard)) return std::nullopt;
        pass_ = Pass{heard, journal_.matches_recorded(), options_.now(), {}};
        std::reverse(pass_->left.begin(), pass_->left.end());
    }
    if (options_.now() < pass_->next) return std::nullopt;
    if (!pass_->left.empty())
        if (auto failure = compare_next()) return failure;
    return pass_->left.empty() ? end_pass() : std::nullopt;
}

SyncEngine::Failure SyncEngine::compare_next() {
    const std::string match_id = pass_->left.back();
    auto failure = compare(match_id);
    if (failure && failure->kind == CallError::Kind::refused) failure = send_own_again(match_id);
    if (!failure) failure = send_aside_again(match_id);
    if (failure && ends_the_round(*failure)) return failure;
    if (!pass_->first) pass_->first = std::move(failure);
    pass_->left.pop_back();
    pass_->next = options_.now() + options_.between_compared;
    return std::nullopt;
}

SyncEngine::Failure SyncEngine::end_pass() {
    const Pass pass = std::move(*pass_);
    pass_.reset();
    compared_ = options_.now();
    compared_generation_ = pass.server.generation;
    if (pass.first) return hold(the_records, pass.first);
    if (const auto error = journal_.store({}, {{compared_setting, pass.server.to_bytes()}}))
        return of_journal(*error);
    const std::scoped_lock lock{mutex_};
    offer_ = true;
    work_waits_ = true;
    return std::nullopt;
}

SyncEngine::Failure SyncEngine::compare(const std::string& match_id) {
    const std::uint32_t last = journal_.last_seq(match_id, EntryStanding::acknowledged);
    const auto id = wire::Uuid::from_text(match_id);
    if (last == 0 || !id) return std::nullopt;
    v1::FetchMatchRequest request;
    request.set_match_id(id->to_bytes());
    request.set_after_seq(last - 1);
    auto result = courier_.fetch(request);
    if (auto* error = std::get_if<CallError>(&result)) {
        if (error->kind != CallError::Kind::not_known) return std::move(*error);
        // The whole match is gone there.
        return send_again(match_id, 0, {});
    }
    const auto& answer = std::get<v1::FetchMatchResponse>(result);
    if (answer.entries_size() == 0)
        return send_again(match_id, answer.head_seq(), answer.head_hash());
    return send_again(match_id, last, chain_hash(answer.entries(0).data()));
}

/// The server shows a device every match of which it has an entry of that device. One that it does
/// not show, since the match is on another court now, has lost ours: they go again, and if they are
/// not taken, table and desk are told.
SyncEngine::Failure SyncEngine::send_own_again(const std::string& match_id) {
    for (const JournalEntry& entry : journal_.entries(match_id)) {
        if (entry.standing != EntryStanding::acknowledged || !is_own(entry)) continue;
        if (const auto error = journal_.wait_again_after(match_id, entry.seq - 1))
            return of_journal(*error);
        break;
    }
    return std::nullopt;
}

/// What the server kept beside the record may be gone as well.
SyncEngine::Failure SyncEngine::send_aside_again(const std::string& match_id) {
    const auto sheet = kept_sheet(match_id);
    if (!sheet || sheet->practice) return std::nullopt;
    return push_aside(*sheet, match_id, Journal::Which::all);
}

/// The server's record has `head` entries, or at least so many, and that one has this hash (empty:
/// not told). What it does not have of ours waits again.
SyncEngine::Failure SyncEngine::send_again(const std::string& match_id, std::uint32_t head,
                                           const std::string& head_hash) {
    const std::uint32_t last = journal_.last_seq(match_id, EntryStanding::acknowledged);
    if (last == 0) return std::nullopt;
    std::uint32_t kept = std::min(head, last);
    if (head > 0 && head <= last && !head_hash.empty()) {
        const auto entry = journal_.entry(match_id, head);
        const bool other =
            entry && entry->standing == EntryStanding::acknowledged && entry->hash != head_hash;
        // Another record has those numbers. From where is for the server to say: all go again, and
        // each is answered one by one.
        if (other) kept = 0;
    }
    if (kept >= last) return std::nullopt;
    if (const auto error = journal_.wait_again_after(match_id, kept)) return of_journal(*error);
    return std::nullopt;
}

}  // namespace courthand::client
