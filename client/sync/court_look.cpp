// The match on this device's court: its sheet, who writes it, and what its record holds more than
// the journal. Looking claims nothing; a match nobody writes is claimed by its first entry.
#include <algorithm>
#include <span>
#include <utility>

#include <fmt/format.h>

#include "client/journal/chain_hash.h"
#include "client/sync/sync_engine.h"
#include "wire/chain.h"
#include "wire/read_entry.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

std::string id_text(const std::string& bytes) {
    const auto id = wire::Uuid::from_bytes(bytes);
    return id ? id->to_text() : std::string{};
}

/// An entry that this program cannot read, as it came: another version of it can.
JournalEntry unread_entry(const std::string& match_id, const std::string& bytes) {
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

/// An entry of the server's record, into the journal: read and hashed once.
std::optional<JournalError> append_acknowledged(Journal& journal, const std::string& match_id,
                                                const v1::EntryBytes& bytes) {
    const auto read = wire::read_entry(bytes.data());
    const auto* const entry = std::get_if<wire::ReadEntry>(&read);
    if (entry == nullptr || entry->header().match_id.to_text() != match_id)
        return journal.append(unread_entry(match_id, bytes.data()), bytes.signature());
    const Journal::Arrival arrival{*entry, bytes.signature(), EntryStanding::acknowledged};
    return journal.append(std::span{&arrival, 1});
}

/// The server keeps one wish of a match, that of whoever asked last; nobody has said no then.
constexpr const char* another_asks =
    "another device of this court has asked since. Ask again if this one is to go on.";
constexpr const char* another_goes_on = "another device was chosen to go on with this match.";

Writer writer_of(const v1::FetchMatchResponse& answer) {
    return {answer.writer().number(), answer.writer().grant_id(), answer.writer().device_id()};
}

}  // namespace

SyncEngine::Failure SyncEngine::fetch_court() {
    if (device_.court == 0) return std::nullopt;
    v1::FetchMatchRequest request;
    request.set_court(device_.court);
    // Only the sheet is wanted; the record is written here.
    request.set_after_seq(UINT32_MAX);
    auto result = courier_.fetch(request);
    if (auto* error = std::get_if<CallError>(&result)) return std::move(*error);
    auto& answer = std::get<v1::FetchMatchResponse>(result);
    hear(answer.header());
    std::vector<StoredMatch> matches;
    std::vector<StoredMatch> moved;
    follows_ = false;
    if (answer.has_match()) {
        const std::string match_id = id_text(answer.match().match_id());
        if (auto failure = send_again(match_id, answer.head_seq(), answer.head_hash()))
            return failure;
        follows_ = writer_of(answer).held_by_other(self_);
        note_wish(match_id, answer);
        if (auto failure = catch_up(answer)) return failure;
        matches.push_back(keep(answer));
        if (auto failure = fetch_ahead(answer, matches)) return failure;
    }
    if (auto failure = look_after_moved(answer, moved)) return failure;
    return store_court(matches, std::move(moved));
}

/// Names of players are needed for the match on the court and those after it; elsewhere the desk
/// could not take them back. Adds the other sheets that have any. True when a name goes with what
/// is to be stored.
bool SyncEngine::take_names_off(std::vector<StoredMatch>& sheets) const {
    bool any = false;
    for (const StoredMatch& kept : journal_.matches()) {
        const auto bare = without_names(kept);
        if (!bare) continue;
        const auto same = std::find_if(sheets.begin(), sheets.end(), [&](const StoredMatch& sheet) {
            return sheet.match_id == kept.match_id;
        });
        any = any || same == sheets.end() || same->sheet != kept.sheet;
        if (same == sheets.end()) sheets.push_back(*bare);
    }
    return any;
}

SyncEngine::Failure SyncEngine::store_court(const std::vector<StoredMatch>& matches,
                                            std::vector<StoredMatch> moved) {
    const std::string match_id = matches.empty() ? std::string{} : matches.front().match_id;
    std::string following;
    for (std::size_t i = 1; i < matches.size(); ++i)
        following += (i > 1 ? "," : "") + matches[i].match_id;
    const bool other_list = journal_.setting(court_match_setting) != match_id ||
                            journal_.setting(court_following_setting) != following;
    for (StoredMatch& match : moved)
        if (auto bare = without_names(match)) match = *std::move(bare);
    moved.insert(moved.end(), matches.begin(), matches.end());
    const bool names_go = take_names_off(moved);
    const std::vector<std::pair<std::string, std::string>> settings{
        {court_match_setting, match_id}, {court_following_setting, following}};
    if (const auto error =
            names_go ? journal_.store_wiping(moved, settings) : journal_.store(moved, settings))
        return of_journal(*error);
    // Names of an earlier contact that could not be wiped then.
    if (const auto error = journal_.wipe_owed()) return of_journal(*error);
    {
        const std::scoped_lock lock{mutex_};
        court_match_ = match_id;
        offer_ = offer_ || other_list;
    }
    changed();
    return std::nullopt;
}

SyncEngine::Failure SyncEngine::fetch_ahead(const v1::FetchMatchResponse& court,
                                            std::vector<StoredMatch>& matches) {
    const int count = std::min(court.following_size(), most_kept_ahead);
    for (int i = 0; i < count; ++i) {
        v1::FetchMatchRequest request;
        request.set_match_id(court.following(i).match_id());
        request.set_after_seq(UINT32_MAX);
        auto result = courier_.fetch(request);
        if (auto* error = std::get_if<CallError>(&result)) {
            if (ends_the_round(*error)) return std::move(*error);
            // Moved since, or the server fails for it alone: no reason to lose the others.
            if (error->kind != CallError::Kind::failed) continue;
            if (auto kept = journal_.match(id_text(request.match_id())))
                matches.push_back(*std::move(kept));
            const std::scoped_lock lock{mutex_};
            look_at_court_ = true;
            continue;
        }
        matches.push_back(keep(std::get<v1::FetchMatchResponse>(result)));
    }
    return std::nullopt;
}

bool SyncEngine::wrote_last(const std::string& match_id) const {
    const auto last = journal_.entry(match_id, journal_.last_seq(match_id));
    return last && is_own(*last);
}

/// The journal ends where the record of the server does: nothing is missing, nothing lies behind.
bool SyncEngine::ends_like(const v1::FetchMatchResponse& answer) const {
    const std::string match_id = id_text(answer.match().match_id());
    if (journal_.last_seq(match_id) != answer.head_seq()) return false;
    if (answer.head_seq() == 0 || answer.head_hash().empty()) return true;
    const auto entry = journal_.entry(match_id, answer.head_seq());
    return entry && entry->hash == answer.head_hash();
}

/// Entries of an epoch before `epoch` are not in the server's record; there it is over, and what
/// follows them can only lie beside the record as they do.
bool SyncEngine::left_behind(const std::string& match_id, std::uint32_t epoch) const {
    const auto first = journal_.unsettled(match_id, 0, 1);
    return !first.empty() && first.front().epoch < epoch;
}

/// Brings the journal to the server's record where it may: behind another device as a spectator, or
/// as the writer after damage or a hand-over.
SyncEngine::Failure SyncEngine::catch_up(v1::FetchMatchResponse& answer) {
    const std::string match_id = id_text(answer.match().match_id());
    const Writer writer = writer_of(answer);
    if (writer.held_by_other(self_)) {
        // What this device wrote before it was fenced stays its record until a person decides.
        if (wrote_last(match_id)) return std::nullopt;
        if (auto failure = clear_the_way(answer)) return failure;
        return take_back(answer);
    }
    if (!writer.held_by(self_)) return std::nullopt;
    const auto last = journal_.entry(match_id, journal_.last_seq(match_id));
    const bool new_to_us =
        !last || last->epoch < writer.epoch || left_behind(match_id, writer.epoch);
    if (new_to_us)
        if (auto failure = clear_the_way(answer)) return failure;
    if (auto failure = take_back(answer)) return failure;
    if (!new_to_us) return std::nullopt;
    if (ends_like(answer)) {
        // At once: what a person enters from now on is written under it.
        if (const auto error = journal_.store({keep(answer)}, {})) return of_journal(*error);
        return std::nullopt;
    }
    // The right to write is used only on top of the record, the whole of it and nothing else: what
    // still waits of an earlier epoch goes beside it first. Until then the sheet keeps saying what
    // it said.
    v1::FetchMatchResponse before;
    const auto stored = journal_.match(match_id);
    if (stored && before.ParseFromString(stored->sheet)) *answer.mutable_writer() = before.writer();
    const std::scoped_lock lock{mutex_};
    look_at_court_ = true;
    return std::nullopt;
}

/// The first entry of the journal that is not in the server's record and will not be: kept on a
/// branch there, or refused while the record has another one in its place or goes on from before
/// it.
std::uint32_t SyncEngine::first_apart(const v1::FetchMatchResponse& answer) const {
    const std::string match_id = id_text(answer.match().match_id());
    const std::uint32_t branched = journal_.first_seq(match_id, EntryStanding::on_branch);
    const std::uint32_t refused = journal_.first_seq(match_id, EntryStanding::refused);
    const bool passed = answer.head_seq() >= refused || writer_of(answer).held_by(self_);
    if (refused == 0 || !passed) return branched;
    return branched == 0 ? refused : std::min(branched, refused);
}

/// The record goes on without those entries, and so does a device that follows it or was given it
/// to write. They are set aside with a trace, shown, and offered on.
SyncEngine::Failure SyncEngine::clear_the_way(const v1::FetchMatchResponse& answer) {
    const std::string match_id = id_text(answer.match().match_id());
    const std::uint32_t first = first_apart(answer);
    if (first == 0) return std::nullopt;
    const auto error = journal_.set_aside_after(match_id, first - 1, "another device wrote on");
    // Some are not with the server yet: they go out first.
    if (error && error->kind != JournalError::Kind::out_of_order) return of_journal(*error);
    return std::nullopt;
}

/// The server holds more of a record than the journal. It comes back byte for byte, as long as it
/// still follows what is here.
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
            const auto error = append_acknowledged(journal_, match_id, bytes);
            // The table has gone on meanwhile: then the two records differ, and a person chooses.
            if (error && error->kind == JournalError::Kind::out_of_order) return std::nullopt;
            if (error) return of_journal(*error);
            ++last;
        }
    }
    return std::nullopt;
}

void SyncEngine::set_wish(Writing::Wish wish, std::string words) {
    const std::scoped_lock lock{mutex_};
    wish_.wish = wish;
    wish_.words = std::move(words);
}

SyncEngine::Failure SyncEngine::ask_if_wanted() {
    v1::GrantWriterRequest request;
    {
        const std::scoped_lock lock{mutex_};
        if (wish_.wish != Writing::Wish::asking) return std::nullopt;
        if (const auto id = wire::Uuid::from_text(wish_match_))
            request.set_match_id(id->to_bytes());
    }
    request.set_take_over(true);
    auto result = courier_.grant(request);
    if (auto* error = std::get_if<CallError>(&result)) {
        if (ends_the_round(*error)) return std::move(*error);
        set_wish(Writing::Wish::failed, error->message);
        changed();
        return std::nullopt;
    }
    const auto& answer = std::get<v1::GrantWriterResponse>(result);
    hear(answer.header());
    switch (static_cast<int>(answer.outcome())) {
        case v1::GrantWriterResponse::OUTCOME_GRANTED:
        case v1::GrantWriterResponse::OUTCOME_ALREADY_YOURS:
            set_wish(Writing::Wish::none);
            look_at_court();
            break;
        case v1::GrantWriterResponse::OUTCOME_ASKED:
            set_wish(Writing::Wish::asked);
            break;
        default:
            set_wish(Writing::Wish::failed, answer.message());
            break;
    }
    changed();
    return std::nullopt;
}

void SyncEngine::note_wish(const std::string& match_id, const v1::FetchMatchResponse& answer) {
    using Wish = Writing::Wish;
    bool asked_before = false;
    std::string wrote_before;
    if (const auto stored = journal_.match(match_id)) {
        const auto read = read_sheet(*stored);
        if (const auto* sheet = std::get_if<StoredSheet>(&read)) {
            asked_before = sheet->asked_by == self_;
            wrote_before = sheet->writer.device_id;
        }
    }
    const std::scoped_lock lock{mutex_};
    if (wish_match_ != match_id) {
        wish_match_ = match_id;
        wish_ = {};
    }
    asked_before = asked_before || wish_.wish == Wish::asked;
    if (!writer_of(answer).held_by_other(self_))
        wish_ = {};
    else if (answer.asked().device_id() == self_)
        wish_.wish = Wish::asked;
    else if (!asked_before || wish_.wish == Wish::asking)
        return;
    else if (!answer.asked().device_id().empty())
        wish_ = {{}, Wish::failed, another_asks};
    else if (wrote_before != answer.writer().device_id())
        wish_ = {{}, Wish::failed, another_goes_on};
    else
        wish_ = {{}, Wish::declined, {}};
}

}  // namespace courthand::client
