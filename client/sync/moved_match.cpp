// Matches of this table that the court does not have any more. The desk may have put them on
// another court: the table learns it, says so, and goes on with what is on its own.
#include <algorithm>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "client/sync/sync_engine.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

bool ended(v1::MatchStatus status) {
    return status == v1::MATCH_STATUS_FINISHED || status == v1::MATCH_STATUS_SIGNED ||
           status == v1::MATCH_STATUS_CANCELLED;
}

/// Of the sheet that is kept, only what the desk and the head official settle: the rest was told
/// when the match was on this court.
bool take_place(const v1::FetchMatchResponse& answer, v1::FetchMatchResponse& kept) {
    const std::string before = kept.SerializeAsString();
    kept.mutable_match()->set_court(answer.match().court());
    kept.mutable_match()->set_status(answer.match().status());
    if (answer.has_writer()) *kept.mutable_writer() = answer.writer();
    kept.clear_asked();
    if (answer.has_asked()) *kept.mutable_asked() = answer.asked();
    return kept.SerializeAsString() != before;
}

}  // namespace

bool SyncEngine::may_have_moved(const StoredMatch& match,
                                const v1::FetchMatchResponse& court) const {
    const auto id = wire::Uuid::from_text(match.match_id);
    if (!id || id->to_bytes() == court.match().match_id()) return false;
    const auto& following = court.following();
    if (std::any_of(following.begin(), following.end(),
                    [&id](const v1::Match& next) { return next.match_id() == id->to_bytes(); }))
        return false;
    const auto read = read_sheet(match);
    const auto* sheet = std::get_if<StoredSheet>(&read);
    if (sheet == nullptr || sheet->practice) return false;
    if (ended(sheet->match.status()) && rulings_waiting(match.match_id).here == 0) return false;
    // One that nobody has begun is let go once; on this court again, it comes with the court.
    const bool let_go = sheet->sheet.court != device_.court || sheet->opened_here;
    if (let_go && journal_.last_seq(match.match_id) == 0) return false;
    // Of an earlier tournament nobody knows anything here.
    const auto tournament = wire::Uuid::from_text(device_.tournament_id);
    const std::string& of_match = sheet->match.tournament_id();
    return !tournament || of_match.empty() || of_match == tournament->to_bytes();
}

/// Asks for each by its id, those that were begun first, and of those the latest: the server shows
/// it to whoever wrote it, wherever it is.
SyncEngine::Failure SyncEngine::look_after_moved(const v1::FetchMatchResponse& court,
                                                 std::vector<StoredMatch>& moved) {
    int asked = 0;
    std::vector<StoredMatch> matches = journal_.matches();
    std::reverse(matches.begin(), matches.end());
    std::stable_partition(matches.begin(), matches.end(), [this](const StoredMatch& match) {
        return journal_.last_seq(match.match_id) != 0;
    });
    for (const StoredMatch& match : matches) {
        if (!may_have_moved(match, court)) continue;
        if (++asked > most_moved) break;
        v1::FetchMatchRequest request;
        request.set_match_id(wire::Uuid::from_text(match.match_id)->to_bytes());
        request.set_after_seq(UINT32_MAX);
        auto result = courier_.fetch(request);
        v1::FetchMatchResponse answer;
        v1::FetchMatchResponse kept;
        if (!kept.ParseFromString(match.sheet)) continue;
        if (const auto* error = std::get_if<CallError>(&result)) {
            if (ends_the_round(*error)) return *error;
            const bool unknown = error->kind == CallError::Kind::not_known;
            const bool begun = journal_.last_seq(match.match_id) != 0;
            if (error->kind != CallError::Kind::refused && (begun || !unknown)) continue;
            // It has nothing of this device and shows it to its new court only.
            answer = kept;
            answer.mutable_match()->set_court(0);
        } else {
            answer = std::move(std::get<v1::FetchMatchResponse>(result));
        }
        if (answer.match().status() == v1::MATCH_STATUS_UNSPECIFIED) continue;
        if (take_place(answer, kept)) moved.push_back(keep(kept));
    }
    return std::nullopt;
}

/// Why the table does not go on with a match that it has begun; empty when it does.
std::string SyncEngine::words_about_place(const std::string& match_id) const {
    const auto stored = journal_.match(match_id);
    if (!stored || device_.court == 0) return {};
    const auto read = read_sheet(*stored);
    const auto* sheet = std::get_if<StoredSheet>(&read);
    if (sheet == nullptr || sheet->practice) return {};
    if (sheet->match.status() == v1::MATCH_STATUS_CANCELLED)
        return "The desk has cancelled this match. If it is played, tell the desk.";
    if (sheet->sheet.court == device_.court) return {};
    if (sheet->sheet.court == 0)
        return "The desk has taken this match off this court. If it is played here, tell the desk.";
    return fmt::format(
        "The desk has put this match on court {}. Go on with it there: the table of that court "
        "asks to take it over. If it is played here, tell the desk.",
        sheet->sheet.court);
}

}  // namespace courthand::client
