#include "client/tables/table_station.h"

#include <algorithm>
#include <vector>

#include "client/enrol/device_folder.h"
#include "client/session/stored_sheet.h"
#include "wire/uuid.h"

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

}  // namespace

std::variant<std::unique_ptr<TableStation>, std::string> TableStation::open(Options options) {
    std::unique_ptr<TableStation> station{new TableStation};
    auto opened = Journal::open(options.folder);
    if (auto* error = std::get_if<JournalError>(&opened)) return std::move(error->message);
    station->journal_ = std::move(std::get<0>(opened));
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
    station->courier_ = make_grpc_courier({self.server, std::get<Credentials>(credentials)});
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
    if (match_id.empty() || finished_.find(match_id) != std::string::npos) return false;
    const auto stored = journal_->match(match_id);
    if (!stored) return false;
    const auto read = read_sheet(*stored);
    const auto* sheet = std::get_if<StoredSheet>(&read);
    if (sheet == nullptr || sheet->sheet.court != device_.court) return false;
    const auto id = wire::Uuid::from_text(device_.id);
    const bool anothers = sheet->writer.epoch > 0 && !sheet->writer.device_id.empty() && id &&
                          sheet->writer.device_id != id->to_bytes();
    if (anothers || sheet->match.status() == v1::MATCH_STATUS_CANCELLED) return false;
    if (journal_->last_seq(match_id) == 0) return true;
    auto match = JournaledMatch::open(*journal_, device_, match_id, {});
    const bool over = !std::holds_alternative<std::string>(match) &&
                      std::get<0>(match)->state().set.stage == Stage::match_over;
    if (over) finished_ += match_id + " ";
    return !over;
}

std::string TableStation::next_match() {
    std::string practice;
    for (const StoredMatch& match : journal_->matches()) {
        if (journal_->last_seq(match.match_id) == 0 || !playable(match.match_id)) continue;
        const auto read = read_sheet(match);
        if (!std::get<StoredSheet>(read).practice) return match.match_id;
        practice = match.match_id;
    }
    std::vector<std::string> wanted{journal_->setting(court_match_setting)};
    for (std::string& id : split(journal_->setting(court_following_setting)))
        wanted.push_back(std::move(id));
    for (const std::string& id : wanted)
        if (playable(id)) return id;
    // A practice is gone on with only by a device that has nothing else to do.
    return syncs() ? std::string{} : practice;
}

std::string TableStation::words_of(const std::string& match_id) const {
    const auto stored = journal_->match(match_id);
    if (!stored) return {};
    const auto read = read_sheet(*stored);
    const auto* sheet = std::get_if<StoredSheet>(&read);
    if (sheet == nullptr) return {};
    std::string words = sheet->sheet.names.a + " - " + sheet->sheet.names.b;
    if (sheet->sheet.number != 0) words += ", match " + std::to_string(sheet->sheet.number);
    return words;
}

std::variant<std::string, JournalError> TableStation::open_own_match(
    const std::string& profile, const PerTeam<std::string>& names) {
    const StoredMatch match = open_here(device_, device_.court, profile, names);
    if (auto error = journal_->store({match}, {})) return std::move(*error);
    return match.match_id;
}

std::variant<std::string, JournalError> TableStation::open_practice(
    const std::string& profile, const PerTeam<std::string>& names) {
    Device stranger = device_;
    stranger.enrolled = false;
    const StoredMatch match = open_here(stranger, device_.court, profile, names);
    if (auto error = journal_->store({match}, {})) return std::move(*error);
    return match.match_id;
}

std::variant<std::unique_ptr<JournaledMatch>, std::string> TableStation::open_match(
    const std::string& match_id) {
    SessionHooks hooks;
    if (engine_) {
        hooks.written = [this] { engine_->wake(); };
        hooks.sync_status = [this](const std::string& id) { return engine_->status(id); };
    }
    return JournaledMatch::open(*journal_, device_, match_id, std::move(hooks));
}

void TableStation::look_at_court() {
    if (engine_) engine_->look_at_court();
}

SyncStatus TableStation::status(const std::string& match_id) const {
    if (engine_) return engine_->status(match_id);
    SyncStatus status;
    status.waiting = journal_->waiting_count(match_id);
    return status;
}

bool TableStation::all_sent() const {
    return journal_->waiting_count() == 0;
}

}  // namespace courthand::client
