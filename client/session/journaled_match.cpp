#include "client/session/journaled_match.h"

#include <algorithm>
#include <cassert>
#include <chrono>

#include <fmt/format.h>

#include "client/session/fact_words.h"
#include "client/session/fork_words.h"
#include "client/session/news.h"
#include "client/session/told_aside.h"
#include "client/session/unreadable.h"
#include "courthand/rules/judge.h"
#include "wire/fact_convert.h"

namespace courthand::client {
namespace {

std::int64_t system_now_us() {
    using namespace std::chrono;
    return duration_cast<microseconds>(system_clock::now().time_since_epoch()).count();
}

std::vector<Verdict> list_of(const VerdictList& verdicts) {
    return {verdicts.begin(), verdicts.end()};
}

/// Facts alone or corrections alone: a correction may judge the whole record anew, and what the
/// facts beside it raised could not be told from that.
[[maybe_unused]] bool of_one_kind(std::span<const Record> what) {
    const auto facts = std::count_if(what.begin(), what.end(), [](const Record& one) {
        return std::holds_alternative<Fact>(one);
    });
    return facts == 0 || static_cast<std::size_t>(facts) == what.size();
}

Team team_of(const v1::RulingNotice& notice) {
    return notice.team() == v1::TEAM_LETTER_B ? Team::B : Team::A;
}

/// Of a notice whose reason is known.
Ruling ruling_of(const v1::RulingNotice& notice) {
    return {notice.accepted() ? Ruling::Decision::accept : Ruling::Decision::overrule,
            reason_of(notice.reason()).value_or(Reason{}), team_of(notice)};
}

/// Why nothing of a practice is sent; behind it what else is to be said of this device.
std::string practice_words(const Device& device, const std::string& more) {
    const std::string why =
        device.enrolled ? "Nothing of this practice is sent: it is no match of the venue."
                        : "Nothing is sent: this table belongs to no venue. For a match of one, "
                          "enrol this device with a code from its desk.";
    return more.empty() ? why : why + " " + more;
}

/// Same fault of the same team, whatever its remedy as of now.
bool same_fault(const Verdict& a, const Verdict& b) {
    return a.reason == b.reason && a.team == b.team && a.entry == b.entry && a.phase == b.phase;
}

}  // namespace

std::string ruling_setting(const std::string& alert_id) {
    return std::string{ruling_prefix} + alert_id;
}

std::variant<std::unique_ptr<JournaledMatch>, std::string> JournaledMatch::open(
    Journal& journal, const Device& device, const std::string& match_id, SessionHooks hooks) {
    const auto stored = journal.match(match_id);
    if (!stored)
        return fmt::format(
            "Match {} is not known to this device. Connect to the server once, or "
            "open a match here.",
            match_id);
    auto sheet = read_sheet(*stored);
    if (auto* wrong = std::get_if<std::string>(&sheet)) return std::move(*wrong);
    auto& good = std::get<StoredSheet>(sheet);
    const Profile* profile = find_profile(good.sheet.profile);
    if (profile == nullptr)
        return fmt::format(
            "Rule profile \"{}\" is not known to this program. Known are: {}. Ask "
            "the desk to choose one of them, or update this program.",
            good.sheet.profile, fmt::join(profile_ids(), ", "));
    std::unique_ptr<JournaledMatch> match{
        new JournaledMatch{journal, device, std::move(good), *profile, std::move(hooks)}};
    if (auto wrong = match->read_record()) return std::move(*wrong);
    tell_set_aside(journal, match->sheet());
    return match;
}

JournaledMatch::JournaledMatch(Journal& journal, const Device& device, StoredSheet sheet,
                               const Profile& profile, SessionHooks hooks)
    : journal_{journal},
      device_{device},
      sheet_{std::move(sheet)},
      profile_{profile},
      hooks_{std::move(hooks)},
      match_id_{wire::Uuid::from_text(sheet_.sheet.match_id).value_or(wire::Uuid{})},
      ids_{wire::UuidMaker::of_system()},
      fold_{match_id_, profile_.rules} {
    if (!hooks_.now_us) hooks_.now_us = system_now_us;
    const MatchFormat format = sheet_.sheet.format.value_or(profile_.rules.format);
    before_first_ = fold(profile_.rules, std::vector<Entry>{Entry{1, Fact{MatchOpened{format}}}});
}

std::optional<std::string> JournaledMatch::read_record() {
    const wire::Head head = fold_.head();
    bool anew = false;
    if (head.seq > 0) {
        // The end of the record may have been set aside for another device's.
        const auto here = journal_.entry(sheet_.sheet.match_id, head.seq);
        anew = !here || here->hash != wire::to_bytes(head.hash);
    }
    if (!anew && journal_.last_seq(sheet_.sheet.match_id) == head.seq) return std::nullopt;
    // Read before anything is forgotten: when that fails, what is shown stays.
    const std::vector<JournalEntry> entries = journal_.entries(sheet_.sheet.match_id);
    if (anew) {
        fold_ = wire::RecordFold{match_id_, profile_.rules};
        last_is_ours_ = false;
    }
    for (const JournalEntry& entry : entries) {
        if (entry.seq <= fold_.head().seq) continue;
        if (auto wrong = read_entry(entry)) return wrong;
    }
    // The score may be another one.
    if (anew) tell_set_aside(journal_, sheet_.sheet);
    return std::nullopt;
}

std::optional<std::string> JournaledMatch::read_entry(const JournalEntry& entry) {
    if (const auto fault = fold_.add(entry.bytes))
        return fmt::format(
            "Entry {} of match {} cannot be read: {}. Start the courthand "
            "version that wrote it, or take the record out with: courthand "
            "export",
            entry.seq, sheet_.sheet.match_id, fault->message());
    last_is_ours_ = fold_.last_device().to_bytes() == id_bytes(device_);
    return std::nullopt;
}

Writing::Who JournaledMatch::who_writes() const {
    if (sheet_.practice || !sheet_.writer.held_by_other(id_bytes(device_)))
        return Writing::Who::here;
    return last_is_ours_ ? Writing::Who::fenced : Writing::Who::elsewhere;
}

Writing JournaledMatch::writing() const {
    Writing writing;
    if (hooks_.wish) writing = hooks_.wish(sheet_.sheet.match_id);
    writing.who = who_writes();
    if (writing.who == Writing::Who::here) return {};
    if (writing.wish == Writing::Wish::none && sheet_.asked_by == id_bytes(device_) &&
        !sheet_.asked_by.empty())
        writing.wish = Writing::Wish::asked;
    return writing;
}

void JournaledMatch::ask_to_go_on() {
    if (hooks_.ask_to_go_on) hooks_.ask_to_go_on(sheet_.sheet.match_id);
}

v1::Entry JournaledMatch::frame() {
    v1::Entry entry;
    entry.set_match_id(match_id_.to_bytes());
    // Only an epoch that this device holds or held: another one's number in our entries would make
    // two records of one epoch.
    const std::uint32_t held =
        sheet_.writer.held_by_other(id_bytes(device_)) ? 0 : sheet_.writer.epoch;
    entry.set_epoch(std::max({1U, held, fold_.epoch()}));
    entry.set_entry_id(ids_.next().to_bytes());
    if (const auto id = wire::Uuid::from_text(device_.id)) entry.set_device_id(id->to_bytes());
    entry.set_device_time_us(hooks_.now_us());
    return entry;
}

RecordResult JournaledMatch::record(std::span<const Record> what, std::string_view text) {
    RecordResult result;
    assert(of_one_kind(what));
    if (what.empty()) return result;
    if (who_writes() == Writing::Who::elsewhere) {
        result.error =
            "Not saved: another device writes this match. Ask to go on here first, or go on at "
            "that device.";
        return result;
    }
    std::vector<v1::Entry> entries;
    const Fact* first = std::get_if<Fact>(&what.front());
    const bool opens = first != nullptr && std::holds_alternative<MatchOpened>(*first);
    if (records().empty() && !opens) {
        const MatchFormat format = sheet_.sheet.format.value_or(profile_.rules.format);
        entries.push_back(frame());
        wire::to_proto(Record{Fact{MatchOpened{format}}}, entries.back());
    }
    for (const Record& one : what) entries.push_back(entry_of(one, text));
    return write(std::move(entries));
}

v1::Entry JournaledMatch::entry_of(const Record& what, std::string_view text) {
    v1::Entry entry = frame();
    wire::to_proto(what, entry);
    if (v1::Fact* beside = wire::mutable_fact_of(entry)) {
        const Fact* fact = std::get_if<Fact>(&what);
        if (const auto* insert = std::get_if<Insert>(&what)) fact = &insert->fact;
        if (const auto* amend = std::get_if<Amend>(&what)) fact = &amend->fact;
        assert(fact != nullptr);
        if (const auto* roster = std::get_if<Roster>(fact)) add_team(*roster, sheet(), *beside);
        add_words(*fact, text, *beside);
    }
    return entry;
}

RecordResult JournaledMatch::write(std::vector<v1::Entry> entries) {
    RecordResult result;
    std::vector<wire::ReadEntry> written;
    std::vector<std::string> signatures;
    wire::Head head = fold_.head();
    for (v1::Entry& entry : entries) {
        auto sealed = wire::seal(std::move(entry), head, hasher_);
        if (const auto* wrong = std::get_if<wire::Unreadable>(&sealed)) {
            result.error = fmt::format("Not saved: {}.", wrong->text());
            return result;
        }
        written.push_back(std::get<wire::ReadEntry>(std::move(sealed)));
        head = written.back().head();
        // Signed now: should this device be enrolled anew, its key is another one by the time it
        // sends.
        signatures.push_back(hooks_.sign ? hooks_.sign(written.back().bytes()) : std::string{});
    }
    std::vector<Journal::Arrival> arrivals;
    for (std::size_t i = 0; i < written.size(); ++i)
        arrivals.push_back({written[i], signatures[i]});
    if (const auto error = journal_.append(arrivals)) {
        result.error = words_of(*error);
        return result;
    }
    take(written, result);
    if (hooks_.written) hooks_.written();
    return result;
}

std::string JournaledMatch::words_of(const JournalError& error) {
    // Entries came back from the server between two touches: the person must see them first.
    bool completed = false;
    if (error.kind == JournalError::Kind::out_of_order)
        unreadable_ = unless_unreadable([&] { completed = !read_record(); });
    return completed ? "Not saved: the record has just been completed from the server. Look at "
                       "the score and enter it again."
                     : error.message;
}

/// Into the fold; what that raised is the result.
void JournaledMatch::take(const std::vector<wire::ReadEntry>& written, RecordResult& result) {
    const std::size_t verdicts_before = fold_.verdicts().size();
    // Only a correction is compared with what stood before.
    const bool corrects = std::any_of(
        written.begin(), written.end(),
        [](const wire::ReadEntry& entry) { return !std::holds_alternative<Fact>(entry.record()); });
    const std::vector<Verdict> standing_before = corrects ? standing() : std::vector<Verdict>{};
    bool refolded = false;
    for (const wire::ReadEntry& entry : written) {
        const auto fault = fold_.add(entry);
        assert(!fault);
        static_cast<void>(fault);
        refolded = refolded || fold_.refolded();
    }
    last_is_ours_ = true;
    result.seq = fold_.head().seq;
    if (!refolded) {
        for (std::size_t i = verdicts_before; i < fold_.verdicts().size(); ++i)
            result.verdicts.push_back(fold_.verdicts()[i].verdict);
        return;
    }
    // What stands now and did not stand before.
    for (const Verdict& now : standing())
        if (std::none_of(standing_before.begin(), standing_before.end(),
                         [&now](const Verdict& was) { return same_fault(was, now); }))
            result.verdicts.push_back(now);
}

RecordResult JournaledMatch::strike_last() {
    const Effective now = effective(fold_.records());
    const auto last =
        std::max_element(now.entries.begin(), now.entries.end(),
                         [](const Entry& a, const Entry& b) { return a.number < b.number; });
    if (last == now.entries.end() || std::holds_alternative<MatchOpened>(last->fact)) {
        RecordResult nothing;
        nothing.error = "There is nothing to undo.";
        return nothing;
    }
    return correct(Strike{last->number}, {});
}

std::vector<Verdict> JournaledMatch::standing() const {
    return list_of(courthand::standing(profile_.rules, state()));
}

SyncStatus JournaledMatch::sync_status() const {
    SyncStatus status;
    const std::string unreadable = unless_unreadable([&] {
        if (hooks_.sync_status)
            status = hooks_.sync_status(sheet_.sheet.match_id);
        else
            status.waiting = journal_.waiting_count(sheet_.sheet.match_id);
    });
    status.unreadable = unreadable.empty() ? unreadable_ : unreadable;
    status.practice = sheet_.practice;
    if (sheet_.practice) status.last_error = practice_words(device_, status.last_error);
    return status;
}

bool JournaledMatch::poll() {
    bool changed = false;
    unreadable_ = unless_unreadable([&] { changed = take_in(); });
    return changed;
}

bool JournaledMatch::take_in() {
    bool changed = false;
    if (const auto stored = journal_.match(sheet_.sheet.match_id)) {
        auto sheet = read_sheet(*stored);
        if (auto* good = std::get_if<StoredSheet>(&sheet)) {
            sheet_.writer = good->writer;
            sheet_.asked_by = good->asked_by;
            sheet_.sheet.court = good->sheet.court;
            // The list of the desk may come when the match has long begun.
            changed = good->sheet.players.a != sheet_.sheet.players.a ||
                      good->sheet.players.b != sheet_.sheet.players.b;
            sheet_.sheet.players = std::move(good->sheet.players);
        }
    }
    const auto before = fold_.head().hash;
    if (read_record()) return false;
    changed = changed || fold_.head().hash != before;
    for (const auto& [name, bytes] : journal_.settings(ruling_prefix)) {
        v1::RulingNotice notice;
        if (!notice.ParseFromString(bytes) || notice.match_id() != match_id_.to_bytes()) continue;
        if (!settles_fork(notice) && !bind(name, notice)) {
            tell_gone(name, notice);
            continue;
        }
        // The device that writes records the ruling; it is sent to that one too. What became of
        // entries beside the record concerns both.
        if (who_writes() == Writing::Who::here || settles_fork(notice))
            changed = take_ruling(name, notice) || changed;
        else if (notice.seq() != 0 && ruled_so(notice))
            forget_ruling(name);
    }
    return changed;
}

/// A notice that names no entry is about a fault that stands when it comes. It may have to wait,
/// and a later fault of its kind is not the one that the official saw: so it is bound, in the
/// journal, to the oldest that stands when it is first looked at. False when there is none.
bool JournaledMatch::bind(const std::string& name, v1::RulingNotice& notice) {
    const auto reason = reason_of(notice.reason());
    if (!reason || notice.seq() != 0) return true;
    for (const Verdict& verdict : standing()) {
        if (verdict.reason != *reason || verdict.team != team_of(notice)) continue;
        const auto entry = journal_.entry(sheet_.sheet.match_id, verdict.entry);
        if (!entry) return false;
        notice.set_seq(verdict.entry);
        notice.set_entry_hash(entry->hash);
        // A failed write comes up again with the next look.
        static_cast<void>(journal_.store({}, {{name, notice.SerializeAsString()}}));
        return true;
    }
    return false;
}

bool JournaledMatch::take_ruling(const std::string& name, const v1::RulingNotice& notice) {
    const Aim aim = aim_of(notice);
    // The core rules the oldest fault of a kind: this one waits until those before it are ruled.
    if (aim == Aim::behind_another) return false;
    if (aim == Aim::next && record(Fact{ruling_of(notice)}, notice.note()).error) return false;
    // Nothing is recorded: also when it was recorded a moment before a crash, that is said.
    if (aim == Aim::gone)
        tell_gone(name, notice);
    else
        forget_ruling(name);
    return aim == Aim::next;
}

/// Forgotten and told at once: neither can be lost without the other.
void JournaledMatch::tell_gone(const std::string& name, const v1::RulingNotice& notice) {
    std::vector<std::pair<std::string, std::string>> settings{{name, ""}};
    if (auto news = fresh_news(journal_, words_about_gone(notice)))
        settings.push_back(*std::move(news));
    if (settles_fork(notice))
        settings.push_back(kept_decision(journal_, sheet_.sheet.match_id, notice.accepted()));
    static_cast<void>(journal_.store({}, settings));
    static_cast<void>(journal_.trim_settings(ruling_prefix, most_kept_rulings));
}

/// The name stays, so that the same notice sent again is known. A failed write comes up again.
void JournaledMatch::forget_ruling(const std::string& name) {
    static_cast<void>(journal_.store({}, {{name, ""}}));
    static_cast<void>(journal_.trim_settings(ruling_prefix, most_kept_rulings));
}

std::string JournaledMatch::words_about_gone(const v1::RulingNotice& notice) const {
    if (settles_fork(notice)) return words_of_settled_fork(sheet(), notice);
    const auto reason = reason_of(notice.reason());
    const char* why =
        "That fault no longer stands as it was; nothing was recorded. Ask the head "
        "official if in doubt.";
    if (ruled_so(notice))
        why = notice.seq() != 0 ? "The record has the same ruling already; nothing more was "
                                  "recorded."
                                : "The record has such a ruling already, or that fault no longer "
                                  "stands; nothing more was recorded. Ask the head official if in "
                                  "doubt.";
    return fmt::format("The head official ruled on \"{}\" of {}{}. {}",
                       reason ? std::string{describe(*reason).text} : notice.reason(),
                       sheet().names[team_of(notice)],
                       notice.seq() == 0 ? std::string{} : fmt::format(", entry {}", notice.seq()),
                       why);
}

JournaledMatch::Aim JournaledMatch::aim_of(const v1::RulingNotice& notice) const {
    if (!reason_of(notice.reason())) return Aim::gone;
    const Ruling ruling = ruling_of(notice);
    if (!notice.entry_hash().empty()) {
        const auto entry = journal_.entry(sheet_.sheet.match_id, notice.seq());
        if (!entry || entry->hash != notice.entry_hash()) return Aim::gone;
    }
    bool first = true;
    for (const Verdict& verdict : standing()) {
        if (verdict.reason != ruling.reason || verdict.team != ruling.team) continue;
        if (verdict.entry == notice.seq()) return first ? Aim::next : Aim::behind_another;
        first = false;
    }
    return Aim::gone;
}

/// Of that very fault, whoever recorded the ruling. A notice that names no entry fits any fault of
/// its kind.
bool JournaledMatch::ruled_so(const v1::RulingNotice& notice) const {
    if (!reason_of(notice.reason())) return false;
    const Ruling ruling = ruling_of(notice);
    const Phase phase =
        ruling.decision == Ruling::Decision::accept ? Phase::accepted : Phase::overruled;
    return std::any_of(fold_.verdicts().begin(), fold_.verdicts().end(),
                       [&](const wire::VerdictStep& step) {
                           const Verdict& verdict = step.verdict;
                           return verdict.phase == phase && verdict.reason == ruling.reason &&
                                  verdict.team == ruling.team &&
                                  (notice.seq() == 0 || verdict.entry == notice.seq());
                       });
}

}  // namespace courthand::client
