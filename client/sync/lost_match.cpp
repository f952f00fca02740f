// A match that one side has lost: the server by a restore, the device by damage to its journal.
#include <fmt/format.h>

#include "client/session/news.h"
#include "client/sync/refusal.h"
#include "client/sync/sync_engine.h"
#include "wire/uuid.h"

namespace courthand::client {

namespace {

std::string unknown_setting(const std::string& match_id) {
    return "sheet-unknown/" + match_id;
}

/// Before all that `fresh_news` names: the session writes those on its own thread.
std::string news_setting(const std::string& match_id) {
    return fmt::format("{}00000000/{}", news_prefix, match_id);
}

}  // namespace

bool nowhere_known(const Journal& journal, const std::string& match_id) {
    return !journal.match(match_id) && !journal.setting(unknown_setting(match_id)).empty();
}

/// Said once; whether the server knows it by now is asked with every offer.
CallError SyncEngine::tell_unknown(const std::string& match_id) {
    if (!nowhere_known(journal_, match_id)) {
        const auto error = journal_.store(
            {}, {{unknown_setting(match_id), "told"},
                 {news_setting(match_id),
                  fmt::format("Match {}: its sheet is lost on this device, and the server does not "
                              "know the match. If it was a practice, nothing is missing. If it was "
                              "played, tell the desk: its entries are kept here.",
                              match_id)}});
        if (error) return of_journal(*error);
    }
    return {CallError::Kind::not_known, {}};
}

std::optional<StoredSheet> SyncEngine::kept_sheet(const std::string& match_id) const {
    const auto stored = journal_.match(match_id);
    if (!stored) return std::nullopt;
    auto read = read_sheet(*stored);
    if (auto* sheet = std::get_if<StoredSheet>(&read)) return std::move(*sheet);
    return std::nullopt;
}

bool SyncEngine::is_ours(const StoredSheet& sheet) const {
    const auto id = wire::Uuid::from_text(device_.tournament_id);
    return id && sheet.match.tournament_id() == id->to_bytes();
}

/// A server put back from a backup may have lost a match of the desk too, and the desk can only
/// plan another one: then it is told of the match as of one that a table opened. Never of a match
/// of another tournament.
CallResult<StoredSheet> SyncEngine::sheet_to_send(const std::string& match_id) {
    auto stored = journal_.match(match_id);
    if (!stored) {
        auto fetched = fetch_sheet(match_id);
        if (auto* error = std::get_if<CallError>(&fetched)) return std::move(*error);
        stored = std::get<StoredMatch>(std::move(fetched));
    }
    auto read = read_sheet(*stored);
    if (auto* wrong = std::get_if<std::string>(&read))
        return CallError{CallError::Kind::failed, std::move(*wrong)};
    auto& sheet = std::get<StoredSheet>(read);
    const auto refusal = kept_refusal(journal_, match_id);
    if (refusal && refusal->of_unknown_match()) sheet.opened_here = !sheet.practice;
    if (!is_ours(sheet)) sheet.opened_here = false;
    return std::move(sheet);
}

/// Without the sheet nobody can say whether the match is a practice: it is not sent blindly.
CallResult<StoredMatch> SyncEngine::fetch_sheet(const std::string& match_id) {
    v1::FetchMatchRequest request;
    if (const auto id = wire::Uuid::from_text(match_id)) request.set_match_id(id->to_bytes());
    request.set_after_seq(UINT32_MAX);
    auto result = courier_.fetch(request);
    if (auto* error = std::get_if<CallError>(&result)) {
        if (ends_the_round(*error)) return std::move(*error);
        if (error->kind == CallError::Kind::not_known) return tell_unknown(match_id);
        return CallError{
            CallError::Kind::failed,
            fmt::format("Match {}: its sheet is lost on this device, and the server does not show "
                        "it: {} Its entries are kept here and not sent. Tell the desk.",
                        match_id, error->message)};
    }
    const auto& answer = std::get<v1::FetchMatchResponse>(result);
    hear(answer.header());
    StoredMatch sheet = keep(answer);
    if (const auto error = journal_.store({sheet}, {})) return of_journal(*error);
    return sheet;
}

}  // namespace courthand::client
