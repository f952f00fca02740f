// Handing entries over: what waits, and now and then what the server did not take before.
#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "client/sync/push_order.h"
#include "client/sync/refusal.h"
#include "client/sync/sync_engine.h"
#include "wire/chain.h"
#include "wire/message_limits.h"

namespace courthand::client {
namespace {

/// Of one writer, one right after the other.
bool follows(const JournalEntry& before, const JournalEntry& entry) {
    return entry.seq == before.seq + 1 && entry.prev_hash == before.hash &&
           entry.epoch == before.epoch;
}

/// One that waited lies on a branch now.
bool newly_beside(const std::vector<JournalEntry>& batch, const PushOutcome& outcome) {
    const auto is_beside = [&outcome](std::uint32_t seq) {
        return std::any_of(outcome.settled.begin(), outcome.settled.end(),
                           [seq](const Journal::Settled& one) {
                               return one.seq == seq && one.standing == EntryStanding::on_branch;
                           });
    };
    return std::any_of(batch.begin(), batch.end(), [&is_beside](const JournalEntry& sent) {
        return sent.standing != EntryStanding::on_branch && is_beside(sent.seq);
    });
}

}  // namespace

bool SyncEngine::offer_due() {
    const auto now = options_.now();
    const bool long_ago = !offered_ || now - *offered_ >= options_.offer_again;
    {
        const std::scoped_lock lock{mutex_};
        if (!std::exchange(offer_, false) && !long_ago) return false;
    }
    offered_ = now;
    return true;
}

SyncEngine::Failure SyncEngine::push_all() {
    const bool offer = offer_due();
    // The match in play first: what older ones have still to send may take long.
    const auto tallies = journal_.unsettled();
    for (auto tally = tallies.rbegin(); tally != tallies.rend(); ++tally) {
        const Journal::Tally& one = *tally;
        if (!offer && one.waiting == 0 && offers_owed_.count(one.match_id) == 0) continue;
        auto failure = push_patiently(one.match_id, offer);
        if (!failure) continue;
        // What was not offered now is offered with the next round.
        const std::scoped_lock lock{mutex_};
        offer_ = offer_ || offer;
        return failure;
    }
    return std::nullopt;
}

/// A match that has failed lately waits for its time, and with it what it was to be offered.
SyncEngine::Failure SyncEngine::push_patiently(const std::string& match_id, bool offer) {
    if (offer) offers_owed_.insert(match_id);
    if (!patience_.due(match_id)) return std::nullopt;
    auto failure = push_match(match_id, offers_owed_.count(match_id) != 0);
    if (!failure) offers_owed_.erase(match_id);
    return hold(match_id, std::move(failure));
}

SyncEngine::Failure SyncEngine::push_match(const std::string& match_id, bool offer) {
    if (!offer && nowhere_known(journal_, match_id)) return std::nullopt;
    const auto found = sheet_to_send(match_id);
    if (const auto* error = std::get_if<CallError>(&found)) {
        if (error->kind == CallError::Kind::not_known) return std::nullopt;
        return *error;
    }
    const auto& sheet = std::get<StoredSheet>(found);
    if (sheet.practice) return std::nullopt;
    if (offer)
        if (auto failure = push_aside(sheet, match_id, Journal::Which::not_sent)) return failure;
    // Nothing can follow an entry that the server does not have; it waits with it.
    if (!offer && journal_.first_seq(match_id, EntryStanding::refused) != 0) return std::nullopt;
    std::uint32_t after = 0;
    int steps_back = 0;
    for (;;) {
        auto batch = offer ? journal_.unsettled(match_id, after, wire::most_batch_entries)
                           : journal_.waiting(match_id, wire::most_batch_entries);
        if (batch.empty()) return std::nullopt;
        const std::uint32_t sent_from = batch.front().seq;
        bool ended = false;
        if (auto failure = push_batch(sheet, batch, after, ended)) return failure;
        changed();
        if (ended) return std::nullopt;
        if (after < sent_from && ++steps_back > most_steps_back)
            return CallError{CallError::Kind::failed,
                             fmt::format("The server keeps forgetting entry {} of the match. Tell "
                                         "the tournament desk.",
                                         after + 1)};
    }
}

/// What the match went on without stays a device's word of what happened: the server is to have it,
/// beside the record if not in it.
SyncEngine::Failure SyncEngine::push_aside(const StoredSheet& sheet, const std::string& match_id,
                                           Journal::Which which) {
    std::int64_t after = 0;
    for (;;) {
        auto run = journal_.aside(match_id, after, wire::most_batch_entries, which);
        if (run.empty()) return std::nullopt;
        std::size_t count = 1;
        while (count < run.size() && follows(run[count - 1].entry, run[count].entry)) ++count;
        run.resize(count);
        after = run.back().id;
        if (auto failure = push_run(sheet, std::move(run))) return failure;
    }
}

SyncEngine::Failure SyncEngine::push_run(const StoredSheet& sheet,
                                         std::vector<Journal::Aside> run) {
    std::vector<JournalEntry> batch;
    for (const Journal::Aside& one : run) batch.push_back(one.entry);
    const v1::PushRequest request =
        push_order(sheet, self_, batch, [this, &run](const JournalEntry& entry) {
            const auto one = std::find_if(run.begin(), run.end(), [&entry](const auto& kept) {
                return kept.entry.hash == entry.hash;
            });
            return one->signature.empty() ? signature_of(entry) : one->signature;
        });
    auto result = courier_.push(request);
    if (auto* error = std::get_if<CallError>(&result)) return std::move(*error);
    const auto& answer = std::get<v1::PushResponse>(result);
    hear(answer.header());
    const PushOutcome outcome = read_answer(batch, answer);
    std::vector<std::pair<std::int64_t, EntryStanding>> settled;
    for (const Journal::Settled& one : outcome.settled)
        settled.emplace_back(run[one.seq - batch.front().seq].id, one.standing);
    if (const auto error = journal_.settle_aside(settled)) return of_journal(*error);
    changed();
    if (!outcome.problem.empty()) return CallError{CallError::Kind::failed, outcome.problem};
    return std::nullopt;
}

SyncEngine::Failure SyncEngine::push_batch(const StoredSheet& sheet,
                                           std::vector<JournalEntry>& batch, std::uint32_t& after,
                                           bool& ended) {
    const v1::PushRequest request = push_order(
        sheet, self_, batch, [this](const JournalEntry& entry) { return signature_of(entry); });
    auto result = courier_.push(request);
    if (auto* error = std::get_if<CallError>(&result)) return std::move(*error);
    const auto& answer = std::get<v1::PushResponse>(result);
    hear(answer.header());
    const PushOutcome outcome = read_answer(batch, answer);
    const std::string& match_id = batch.front().match_id;
    Settings settings;
    if (outcome.refused) {
        const Refusal refusal{*outcome.refused, ServerMark::of(answer.header())};
        settings.push_back(kept(match_id, refusal));
        if (refusal.of_unknown_match() && !request.has_opened_here() && is_ours(sheet)) {
            // With the next offer the match is told as well.
            const std::scoped_lock lock{mutex_};
            offer_ = work_waits_ = true;
        }
    }
    if (!outcome.settled.empty()) {
        if (const auto error =
                journal_.settle(match_id, outcome.settled, with_cursor(std::move(settings))))
            return of_journal(*error);
        held_cursor_.reset();
        after = outcome.settled.back().seq;
        moved_ = true;
        // This device may have been given the match after it had written them.
        const std::scoped_lock lock{mutex_};
        look_at_court_ = look_at_court_ || newly_beside(batch, outcome);
    }
    ended = outcome.refused.has_value();
    if (!outcome.problem.empty()) return CallError{CallError::Kind::failed, outcome.problem};
    if (ended || !outcome.gap) return std::nullopt;
    return outcome.settled.empty() ? step_back(batch.front(), outcome.head, after, ended)
                                   : std::nullopt;
}

/// The server misses an entry before the first one sent: what it had acknowledged waits again.
SyncEngine::Failure SyncEngine::step_back(const JournalEntry& first, std::uint32_t head,
                                          std::uint32_t& after, bool& ended) {
    if (head + 1 < first.seq) {
        if (const auto error = journal_.wait_again_after(first.match_id, head))
            return of_journal(*error);
        const auto again = journal_.waiting(first.match_id, 1);
        if (!again.empty() && again.front().seq < first.seq) {
            after = head;
            return std::nullopt;
        }
    }
    ended = true;
    // Behind a refused entry everything waits, and the status tells of that one.
    if (journal_.first_seq(first.match_id, EntryStanding::refused) != 0) return std::nullopt;
    return CallError{CallError::Kind::failed,
                     fmt::format("The server does not take entry {} of the match. Tell the "
                                 "tournament desk.",
                                 first.seq)};
}

bool SyncEngine::is_own(const JournalEntry& entry) const {
    const auto parsed = wire::parse_entry(entry.bytes);
    return parsed && parsed->device_id() == self_;
}

std::string SyncEngine::signature_of(const JournalEntry& entry) const {
    if (!is_own(entry)) return journal_.signature(entry.match_id, entry.seq);
    return options_.sign ? options_.sign(entry.bytes) : std::string{};
}

}  // namespace courthand::client
