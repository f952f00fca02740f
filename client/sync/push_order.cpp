#include "client/sync/push_order.h"

#include <algorithm>

#include <fmt/format.h>

#include "wire/uuid.h"

namespace courthand::client {

namespace {

/// A branch is kept too, but it is not the record: a person must know.
EntryStanding where_it_lies(const v1::PushResult& result) {
    return result.branch() == 0 ? EntryStanding::acknowledged : EntryStanding::on_branch;
}

}  // namespace

v1::PushRequest push_order(const StoredSheet& sheet, const std::string& self,
                           std::vector<JournalEntry>& waiting, const SignatureOf& signature) {
    const std::uint32_t epoch = waiting.front().epoch;
    const auto other = std::find_if(waiting.begin(), waiting.end(),
                                    [epoch](const auto& entry) { return entry.epoch != epoch; });
    waiting.erase(other, waiting.end());
    v1::PushRequest request;
    request.set_request_number(waiting.front().seq);
    if (const auto id = wire::Uuid::from_text(waiting.front().match_id))
        request.set_match_id(id->to_bytes());
    v1::WriterEpoch& writer = *request.mutable_writer();
    writer.set_number(epoch);
    // A table that began by itself has no grant to show for its epoch, and another device's is not
    // ours to show.
    if (sheet.writer.epoch == epoch && !sheet.writer.held_by_other(self))
        writer.set_grant_id(sheet.writer.grant_id);
    if (sheet.opened_here) *request.mutable_opened_here() = sheet.match;
    for (const JournalEntry& entry : waiting) {
        v1::EntryBytes& out = *request.add_entries();
        out.set_data(entry.bytes);
        out.set_signature(signature(entry));
    }
    return request;
}

PushOutcome read_answer(const std::vector<JournalEntry>& sent, const v1::PushResponse& answer) {
    PushOutcome outcome;
    outcome.head = answer.head_seq();
    if (answer.results_size() != static_cast<int>(sent.size())) {
        outcome.problem = fmt::format("The server answered {} of {} entries.",
                                      answer.results_size(), sent.size());
        return outcome;
    }
    for (std::size_t i = 0; i < sent.size(); ++i) {
        const v1::PushResult& result = answer.results(static_cast<int>(i));
        const std::uint32_t seq = sent[i].seq;
        switch (static_cast<int>(result.outcome())) {
            case v1::PushResult::OUTCOME_APPENDED:
            case v1::PushResult::OUTCOME_ALREADY_HAD:
                outcome.settled.push_back({seq, where_it_lies(result)});
                break;
            case v1::PushResult::OUTCOME_STORED_ON_BRANCH:
                outcome.settled.push_back({seq, EntryStanding::on_branch});
                break;
            case v1::PushResult::OUTCOME_INVALID:
                outcome.settled.push_back({seq, EntryStanding::refused});
                if (!outcome.refused) {
                    outcome.refused = result;
                    outcome.refused->set_seq(seq);
                }
                break;
            case v1::PushResult::OUTCOME_GAP:
                outcome.gap = true;
                break;
            default:
                outcome.problem = fmt::format(
                    "The server's answer for entry {} is not known to "
                    "this program: update it.",
                    seq);
                break;
        }
    }
    return outcome;
}

}  // namespace courthand::client
