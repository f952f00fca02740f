#include "client/tables/table_station.h"

#include <algorithm>

#include <fmt/format.h>

#include "client/enrol/begun_enrolment.h"
#include "client/enrol/device_folder.h"
#include "client/session/left_rulings.h"
#include "client/session/match_words.h"
#include "client/session/news.h"
#include "client/session/stored_sheet.h"
#include "client/session/unreadable.h"
#include "client/sync/entry_signer.h"
#include "courthand/match/signatures.h"
#include "wire/read_entry.h"

namespace courthand::client {
namespace {

std::vector<std::string> split(const std::string& list) {
    std::vector<std::string> parts;
    std::size_t at = 0;
    while (at < list.size()) {
        const std::size_t end = std::min(list.find(',', at), list.size());
        parts.push_back(list.substr(at, end - at));
        at = end + 1;
    }
    return parts;
}

/// Not to be played on the court of this device, by the word of the desk.
bool elsewhere(const StoredSheet& sheet, const Device& device) {
    return sheet.sheet.court != device.court || sheet.match.status() == v1::MATCH_STATUS_CANCELLED;
}

}  // namespace

std::variant<std::unique_ptr<TableStation>, std::string> TableStation::open(Options options) {
    std::unique_ptr<TableStation> station{new TableStation};
    station->folder_ = options.folder;
    auto opened = Journal::open(options.folder);
    if (auto* error = std::get_if<JournalError>(&opened)) return std::move(error->message);
    station->journal_ = std::move(std::get<0>(opened));
    if (auto wrong = finish_enrolment(options.folder, *station->journal_)) return std::move(*wrong);
    auto device = load_device(*station->journal_);
    if (auto* error = std::get_if<JournalError>(&device)) return std::move(error->message);
    station->device_ = std::get<Device>(std::move(device));
    Device& self = station->device_;
    if (!options.server.empty()) self.server = options.server;
    if (options.court != 0) {
        if (self.enrolled && self.court != options.court)
            return "This device was enrolled for court " + std::to_string(self.court) +
                   ", not for court " + std::to_string(options.court) +
                   ". Use the device of that court, or enrol this one anew.";
        self.court = options.court;
    }
    if (!self.enrolled || self.server.empty()) return station;
    auto credentials = load_credentials(options.folder);
    if (auto* wrong = std::get_if<std::string>(&credentials)) return std::move(*wrong);
    const auto& keys = std::get<Credentials>(credentials);
    auto signer = EntrySigner::from_pem(keys.key);
    if (auto* wrong = std::get_if<std::string>(&signer)) return std::move(*wrong);
    options.sync.sign = [signer = std::get<EntrySigner>(signer)](std::string_view entry) {
        return signer.sign(entry);
    };
    station->sign_ = options.sync.sign;
    station->courier_ = make_grpc_courier({self.server, keys});
    station->engine_ =
        std::make_unique<SyncEngine>(*station->journal_, *station->courier_, self, options.sync);
    station->engine_->start(std::move(options.changed));
    return station;
}

TableStation::~TableStation() {
    if (engine_) engine_->stop();
}

std::string TableStation::recovery_words() const {
    return journal_->recovery() ? journal_->recovery()->text() : std::string{};
}

bool TableStation::playable(const std::string& match_id) {
    if (match_id.empty()) return false;
    const auto stored = journal_->match(match_id);
    if (!stored) return false;
    const auto read = read_sheet(*stored);
    const auto* sheet = std::get_if<StoredSheet>(&read);
    if (sheet == nullptr || elsewhere(*sheet, device_)) return false;
    if (sheet->writer.held_by_other(id_bytes(device_))) return false;
    return !over(match_id);
}

bool TableStation::left_court(const std::string& match_id) const {
    const auto stored = journal_->match(match_id);
    if (!stored) return false;
    const auto read = read_sheet(*stored);
    const auto* sheet = std::get_if<StoredSheet>(&read);
    return sheet != nullptr && !sheet->practice && elsewhere(*sheet, device_);
}

bool TableStation::over(const std::string& match_id) {
    // A late ruling or a correction may take the end of a match back.
    const auto last = journal_->entry(match_id, journal_->last_seq(match_id));
    if (!last) return false;
    Seen& seen = seen_[match_id];
    if (seen.last_hash == last->hash) return seen.over;
    const auto match = JournaledMatch::open(*journal_, device_, match_id, {});
    // One that cannot be read is read again: a later look may.
    if (std::holds_alternative<std::string>(match)) return false;
    const auto& state = std::get<0>(match)->state();
    seen = {last->hash, state.set.stage == Stage::match_over};
    return seen.over;
}

std::string TableStation::begun_here(std::string& practice) {
    for (const StoredMatch& match : journal_->matches()) {
        if (journal_->last_seq(match.match_id) == 0 || !playable(match.match_id)) continue;
        const auto read = read_sheet(match);
        if (!std::get<StoredSheet>(read).practice) return match.match_id;
        practice = match.match_id;
    }
    return {};
}

std::string TableStation::next_match() {
    std::string practice;
    if (std::string begun = begun_here(practice); !begun.empty()) return begun;
    std::vector<std::string> wanted{journal_->setting(court_match_setting)};
    for (std::string& id : split(journal_->setting(court_following_setting)))
        wanted.push_back(std::move(id));
    for (const std::string& id : wanted)
        if (playable(id)) return id;
    // A practice is gone on with only by a device that has nothing else to do.
    return syncs() ? std::string{} : practice;
}

std::string TableStation::match_elsewhere() {
    std::string id = journal_->setting(court_match_setting);
    const auto stored = journal_->match(id);
    if (!stored) return {};
    const auto read = read_sheet(*stored);
    const auto* sheet = std::get_if<StoredSheet>(&read);
    if (sheet == nullptr || !sheet->writer.held_by_other(id_bytes(device_)) ||
        sheet->match.status() == v1::MATCH_STATUS_CANCELLED || over(id))
        return {};
    return id;
}

std::string TableStation::match_to_show() {
    std::string practice;
    if (std::string begun = begun_here(practice); !begun.empty()) return begun;
    if (std::string elsewhere = match_elsewhere(); !elsewhere.empty()) return elsewhere;
    return next_match();
}

std::string TableStation::written_last() const {
    std::string found;
    std::int64_t written_at = 0;
    for (const std::string& id : journal_->matches_recorded()) {
        const auto last = journal_->entry(id, journal_->last_seq(id));
        const auto entry = last ? wire::parse_entry(last->bytes) : std::nullopt;
        if (!entry || (!found.empty() && entry->device_time_us() < written_at)) continue;
        written_at = entry->device_time_us();
        found = id;
    }
    return found;
}

bool TableStation::waits_for_signatures(const std::string& match_id) const {
    const auto stored = journal_->match(match_id);
    if (!stored) return false;
    const auto read = read_sheet(*stored);
    const auto* sheet = std::get_if<StoredSheet>(&read);
    if (sheet == nullptr || sheet->practice || elsewhere(*sheet, device_) ||
        sheet->writer.held_by_other(id_bytes(device_)) ||
        sheet->match.status() == v1::MATCH_STATUS_SIGNED)
        return false;
    const auto opened = JournaledMatch::open(*journal_, device_, match_id, {});
    const auto* match = std::get_if<std::unique_ptr<JournaledMatch>>(&opened);
    if (match == nullptr || (*match)->state().set.stage != Stage::match_over) return false;
    return !missing_to_close(Signatures{(*match)->written()}.under_record()).empty();
}

std::string TableStation::match_left_open() {
    std::string practice;
    if (std::string begun = begun_here(practice); !begun.empty()) return begun;
    std::string last = written_last();
    return waits_for_signatures(last) ? last : std::string{};
}

std::string TableStation::words_of(const std::string& match_id) const {
    const auto stored = journal_->match(match_id);
    if (!stored) return {};
    const auto read = read_sheet(*stored);
    const auto* sheet = std::get_if<StoredSheet>(&read);
    if (sheet == nullptr) return {};
    return match_words(sheet->sheet);
}

std::variant<std::string, JournalError> TableStation::open_own_match(
    const std::string& profile, const PerTeam<std::string>& names) {
    const StoredMatch match = open_here(device_, device_.court, profile, names);
    if (auto error = journal_->store({match}, {})) return std::move(*error);
    return match.match_id;
}

std::variant<std::string, JournalError> TableStation::open_practice(
    const std::string& profile, const PerTeam<std::string>& names) {
    // One that nobody has begun is as good as another one.
    for (const StoredMatch& kept : journal_->matches()) {
        const auto read = read_sheet(kept);
        const auto* sheet = std::get_if<StoredSheet>(&read);
        if (sheet != nullptr && sheet->practice && sheet->sheet.profile == profile &&
            sheet->sheet.court == device_.court && journal_->last_seq(kept.match_id) == 0)
            return kept.match_id;
    }
    Device stranger = device_;
    stranger.enrolled = false;
    const StoredMatch match = open_here(stranger, device_.court, profile, names);
    if (auto error = journal_->store({match}, {})) return std::move(*error);
    return match.match_id;
}

std::string TableStation::not_enrolled_words() const {
    if (device_.enrolled) return {};
    std::error_code failed;
    const std::filesystem::path whole = std::filesystem::absolute(folder_, failed);
    return fmt::format(
        "Practice only: the folder {0} holds no enrolment. Nothing is sent, and no match of the "
        "desk comes here. If the folder is mistyped, start again with the right one after --data. "
        "A new device: ask the desk for a code, then courthand enrol --server HOST:PORT --code "
        "CODE --data {0}",
        (failed ? folder_ : whole).string());
}

SessionHooks TableStation::hooks() {
    SessionHooks hooks;
    hooks.sync_status = [this](const std::string& id) { return status(id); };
    if (engine_) {
        hooks.sign = sign_;
        hooks.written = [this] { engine_->wake(); };
        hooks.wish = [this](const std::string& id) { return engine_->wish(id); };
        hooks.ask_to_go_on = [this](const std::string& id) { engine_->ask_take_over(id); };
    }
    return hooks;
}

std::variant<std::unique_ptr<JournaledMatch>, std::string> TableStation::open_match(
    const std::string& match_id) {
    return JournaledMatch::open(*journal_, device_, match_id, hooks());
}

void TableStation::record_left_rulings(const std::string& shown) {
    client::record_left_rulings(*journal_, device_, shown, hooks());
}

std::vector<std::string> TableStation::unseen_news() const {
    return client::unseen_news(*journal_);
}

/// A failed write shows the words again, and a failed read is for whoever looks next: this is
/// called from a touch, which must not end the window.
void TableStation::forget_news(const std::string& words) {
    static_cast<void>(
        unless_unreadable([&] { static_cast<void>(client::forget_news(*journal_, words)); }));
}

void TableStation::look_at_court() {
    if (engine_) engine_->look_at_court();
}

SyncStatus TableStation::status(const std::string& match_id) const {
    if (engine_) return engine_->status(match_id);
    SyncStatus status;
    status.waiting = journal_->waiting_count(match_id);
    status.not_enrolled = not_enrolled_words();
    return status;
}

bool TableStation::all_sent() const {
    for (const Journal::Tally& one : journal_->unsettled()) {
        if (one.waiting + one.refused + one.aside == 0) continue;
        if (nowhere_known(*journal_, one.match_id)) continue;
        const auto stored = journal_->match(one.match_id);
        if (!stored) return false;
        const auto read = read_sheet(*stored);
        const auto* sheet = std::get_if<StoredSheet>(&read);
        if (sheet == nullptr || !sheet->practice) return false;
    }
    return true;
}

}  // namespace courthand::client
