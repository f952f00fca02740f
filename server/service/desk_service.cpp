#include "server/service/desk_service.h"

#include <grpcpp/grpcpp.h>

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "courthand/rules/profile.h"
#include "courthand/v1/desk.grpc.pb.h"
#include "server/auth/call_gate.h"
#include "server/auth/enrolment.h"
#include "server/desk/match_planning.h"
#include "server/desk/roster_file.h"
#include "server/service/audit_note.h"
#include "server/service/desk_message.h"
#include "server/service/match_message.h"
#include "server/service/work_call.h"
#include "server/venue/alert_message.h"
#include "wire/fact_convert.h"
#include "wire/message_limits.h"

namespace courthand::server::service {

namespace {

template <class Response>
using Answer = Result<Response>;

Status invalid(std::string why) {
    return Status::failed(StatusCode::invalid, std::move(why));
}

template <class I>
std::optional<I> id_of(const std::string& bytes) {
    const auto uuid = uuid_from_bytes(bytes);
    if (!uuid || uuid->nil()) return std::nullopt;
    return I{*uuid};
}

// A plan that the keeper of matches has not read back yet.
v1::Match message_of(const MatchPlan& plan) {
    LiveMatch match;
    match.key = plan.key;
    match.plan = plan;
    match.profile = find_profile(plan.profile);
    v1::Match out;
    to_message(match, out);
    return out;
}

/// The calls, without network.
class DeskCalls {
  public:
    explicit DeskCalls(const VenueParts& parts) : parts_{parts} {}

    Answer<v1::ListMatchesResponse> list_matches(const v1::ListMatchesRequest& request) const {
        auto response = stamped<v1::ListMatchesResponse>();
        (void)parts_.keeper.read_at([&](std::span<const LiveMatch* const> matches) {
            for (const LiveMatch* match : matches) {
                if (request.court() != 0 && match->plan.court != request.court()) continue;
                v1::Match message;
                to_message(*match, message);
                const bool wanted = request.status() == v1::MATCH_STATUS_UNSPECIFIED ||
                                    request.status() == message.status();
                if (wanted && response.matches_size() < most_listed)
                    *response.add_matches() = std::move(message);
            }
        });
        return response;
    }

    Answer<v1::ListResultsResponse> list_results() const {
        auto response = stamped<v1::ListResultsResponse>();
        (void)parts_.keeper.read_at([&](std::span<const LiveMatch* const> matches) {
            for (const LiveMatch* match : matches)
                if (match->head.last > 0 && response.results_size() < most_listed) {
                    v1::MatchResult& result = *response.add_results();
                    result = result_of(*match);
                    result.set_left_to_desk(parts_.left_to_desk(*match));
                }
        });
        for (v1::MatchResult& result : *response.mutable_results())
            if (const auto id = id_of<MatchId>(result.match().match_id()))
                result.set_alerts_open(parts_.venue.open_alerts(*id));
        return response;
    }

    Answer<v1::ListCourtsResponse> list_courts() const {
        const auto courts = parts_.desk.courts();
        if (!courts.ok()) return courts.status();
        const auto devices = parts_.enrolments.devices();
        if (!devices.ok()) return devices.status();
        auto response = stamped<v1::ListCourtsResponse>();
        for (const desk::Court& court : *courts) {
            v1::Court& out = *response.add_courts();
            out.set_number(court.number);
            out.set_name(court.name);
            const DeviceId writer = fill_matches(court.number, out);
            fill_device(court.number, writer, *devices, out);
        }
        return response;
    }

    Answer<v1::ListTeamsResponse> list_teams() const {
        const auto teams = parts_.desk.teams();
        if (!teams.ok()) return teams.status();
        auto response = stamped<v1::ListTeamsResponse>();
        for (const desk::Team& team : *teams)
            *response.add_teams() = to_message(team, parts_.tournament);
        return response;
    }

    Answer<v1::ImportRosterResponse> import_roster(const v1::ImportRosterRequest& request,
                                                   const tournament::Speaker& speaker) const {
        if (request.csv().size() > wire::most_roster_file_bytes)
            return invalid("the file is larger than 1 MiB: split it");
        if (!wire::fits(request.reason(), wire::most_remark_bytes))
            return invalid(fmt::format("reason: write up to {} bytes, without special keys",
                                       wire::most_remark_bytes));
        desk::RosterFile file = desk::read_roster_file(request.csv());
        if (Status fits = check(file, request.reason()); !fits.ok()) return fits;
        auto response = stamped<v1::ImportRosterResponse>();
        response.set_error_count(static_cast<std::uint32_t>(file.errors.size()));
        for (const desk::RosterError& error : file.errors)
            if (response.errors_size() < static_cast<int>(wire::most_row_errors))
                *response.add_errors() = to_message(error);
        if (file.errors.empty() && !request.dry_run()) {
            auto kept = parts_.desk.keep_teams(speaker, file.teams, request.reason());
            if (!kept.ok()) return kept.status();
            if (const Status status = parts_.desk.keep_people(speaker, file); !status.ok())
                return status;
            file.teams = *std::move(kept);
            response.set_kept(true);
        }
        for (const desk::Team& team : file.teams)
            *response.add_teams() = to_message(team, parts_.tournament);
        return response;
    }

    Answer<v1::CreateMatchResponse> create_match(const v1::CreateMatchRequest& request,
                                                 const tournament::Speaker& speaker) const {
        const auto match = id_of<MatchId>(request.match_id());
        const auto first = id_of<TeamId>(request.first_team_id());
        const auto second = id_of<TeamId>(request.second_team_id());
        if (!match || !first || !second)
            return invalid("match_id and both team ids must be 16 bytes");
        if (matches_kept() >= most_matches)
            return Status::failed(
                StatusCode::exhausted,
                fmt::format("the tournament has {} matches, which is the limit", most_matches),
                "begin a new tournament");
        desk::MatchWish wish;
        wish.key = {parts_.tournament, *match};
        wish.first = *first;
        wish.second = *second;
        wish.court = request.court();
        wish.profile = request.profile_id();
        if (request.has_format()) {
            const auto format = wire::from_proto(request.format());
            if (const auto* bad = std::get_if<wire::Unreadable>(&format))
                return invalid(bad->text());
            wish.format = std::get<MatchFormat>(format);
        }
        if (request.scheduled_us() < 0 || request.scheduled_us() > wire::latest_scheduled_us)
            return invalid("scheduled_us: no time between the years 1970 and 2100");
        if (request.scheduled_us() != 0) wish.scheduled_at = venue::moment(request.scheduled_us());
        const auto plan = desk::plan_match({parts_.record, parts_.matches, speaker}, wish);
        if (!plan.ok()) return plan.status();
        renew_courts(parts_);
        auto response = stamped<v1::CreateMatchResponse>();
        *response.mutable_match() = message_of(*plan);
        return response;
    }

    Answer<v1::AssignCourtResponse> assign_court(const v1::AssignCourtRequest& request,
                                                 const tournament::Speaker& speaker) const {
        const auto match = id_of<MatchId>(request.match_id());
        if (!match) return invalid("match_id must be 16 bytes");
        const auto plan = desk::assign_court({parts_.record, parts_.matches, speaker},
                                             {parts_.tournament, *match}, request.court());
        if (!plan.ok()) return plan.status();
        renew_courts(parts_);
        auto response = stamped<v1::AssignCourtResponse>();
        *response.mutable_match() = message_of(*plan);
        return response;
    }

    Answer<v1::IssueCodeResponse> issue_code(const v1::IssueCodeRequest& request) const {
        const auto seat = seat_of(request.seat());
        if (!seat) return invalid("seat: say for which seat the code is");
        auth::CodeWish wish;
        wish.seat = *seat;
        wish.court = request.court();
        if (request.minutes() != 0) wish.lives = std::chrono::minutes{request.minutes()};
        const auto issued = auth::issue_code(parts_.enrolments, parts_.authority, wish,
                                             std::chrono::system_clock::now());
        if (!issued.ok()) return issued.status();
        const auth::IssuedCode& code = *issued;
        const auth::Fingerprint& fingerprint = parts_.authority.fingerprint();
        auto response = stamped<v1::IssueCodeResponse>();
        response.set_code(code.text);
        response.set_authority_fingerprint(fingerprint.data(), fingerprint.size());
        response.set_expires_us(venue::microseconds(code.expires));
        return response;
    }

    Answer<v1::ListDevicesResponse> list_devices() const {
        auto devices = parts_.enrolments.devices();
        if (!devices.ok()) return devices.status();
        std::reverse(devices->begin(), devices->end());
        auto response = stamped<v1::ListDevicesResponse>();
        for (const auth::Device& device : *devices)
            *response.add_devices() = to_message(device, parts_.venue.last_seen(device.who.device));
        return response;
    }

    Answer<v1::RevokeDeviceResponse> revoke_device(const v1::RevokeDeviceRequest& request) const {
        const auto id = id_of<DeviceId>(request.device_id());
        if (!id) return invalid("device_id must be 16 bytes");
        const auto revoked = parts_.devices.revoke(*id, std::chrono::system_clock::now());
        if (!revoked.ok()) return revoked.status();
        if (!*revoked)
            return Status::failed(StatusCode::not_found, "there is no such device",
                                  "refresh the list of devices");
        auto response = stamped<v1::RevokeDeviceResponse>();
        const auto device = parts_.enrolments.device(*id);
        if (!device.ok()) return device.status();
        if (*device) *response.mutable_device() = to_message(**device, parts_.venue.last_seen(*id));
        return response;
    }

    Answer<v1::ListAuditResponse> list_audit(const v1::ListAuditRequest& request) const {
        if (request.most() > wire::most_audit_lines)
            return invalid(
                fmt::format("most: at most {} lines in one answer", wire::most_audit_lines));
        constexpr std::uint32_t usual_lines = 100;
        const auto lines = parts_.audit_store.list(
            request.before(), request.most() == 0 ? usual_lines : request.most());
        if (!lines.ok()) return lines.status();
        const auto devices = parts_.enrolments.devices();
        if (!devices.ok()) return devices.status();
        std::map<DeviceId, std::string> names;
        for (const auth::Device& device : *devices) names[device.who.device] = device.name;
        auto response = stamped<v1::ListAuditResponse>();
        for (const audit::AuditEntry& line : *lines) {
            v1::AuditLine& out = *response.add_lines();
            out = to_message(line);
            if (line.who) out.set_device_name(names[line.who->device]);
        }
        return response;
    }

  private:
    static constexpr int most_listed = 2000;

    /// What the record of the tournament has against the teams of the file is an error of the file.
    Status check(desk::RosterFile& file, const std::string& reason) const {
        if (!file.errors.empty()) return Status::fine();
        Status status = parts_.desk.check_teams(file.teams, reason);
        if (status.ok()) status = parts_.desk.check_people(file);
        if (status.code != StatusCode::invalid) return status;
        file.errors.push_back({0, "team", std::move(status.message), std::move(status.cure)});
        return Status::fine();
    }

    std::size_t matches_kept() const {
        std::size_t kept = 0;
        (void)parts_.keeper.read_at(
            [&](std::span<const LiveMatch* const> matches) { kept = matches.size(); });
        return kept;
    }

    template <class Response>
    Response stamped() const {
        Response response;
        parts_.stamp.fill(*response.mutable_header());
        return response;
    }

    /// The device that writes the match on the court; nil: nobody does.
    DeviceId fill_matches(std::uint32_t court, v1::Court& out) const {
        DeviceId writer;
        const std::vector<MatchId> on_court = parts_.keeper.on_court(court);
        if (on_court.empty()) return writer;
        parts_.keeper.read(on_court.front(), [&](const LiveMatch& match) {
            to_message(match, *out.mutable_current());
            writer = match.head.writer;
        });
        out.set_waiting(static_cast<std::uint32_t>(on_court.size() - 1));
        return writer;
    }

    // The one that writes counts; while nobody does, the newest: it was enrolled to write.
    static void fill_device(std::uint32_t court, DeviceId writer,
                            const std::vector<auth::Device>& devices, v1::Court& out) {
        for (const auth::Device& device : devices) {
            if (device.revoked) continue;
            const bool writes = device.who.device == writer;
            if (device.who.court == court || writes)
                out.set_device_id(to_bytes(device.who.device.value));
            if (writes) return;
        }
    }

    VenueParts parts_;
};

ActWords words_of(const v1::ImportRosterRequest& request) {
    return {"import-roster", request.file_name(), request.dry_run() ? "looked at only" : ""};
}
ActWords words_of(const v1::CreateMatchRequest& request) {
    return {"create-match", id_text(request.match_id()),
            fmt::format("court {}, {}", request.court(), request.profile_id())};
}
ActWords words_of(const v1::AssignCourtRequest& request) {
    return {"assign-court", id_text(request.match_id()), fmt::format("court {}", request.court())};
}
ActWords words_of(const v1::IssueCodeRequest& request) {
    const auto seat = seat_of(request.seat());
    return {"issue-code", seat ? std::string{auth::word(*seat)} : "no seat",
            request.court() == 0 ? "" : fmt::format("court {}", request.court())};
}
ActWords words_of(const v1::RevokeDeviceRequest& request) {
    return {"revoke", id_text(request.device_id()), request.reason()};
}

/// Why an act that was answered did nothing of what it asked for; empty: it did.
template <class Request, class Response>
std::string nothing_done(const Request&, const Response&) {
    return {};
}
std::string nothing_done(const v1::ImportRosterRequest& request,
                         const v1::ImportRosterResponse& response) {
    if (request.dry_run() || response.kept()) return {};
    return fmt::format("nothing was kept: {} {} in the file", response.error_count(),
                       response.error_count() == 1 ? "error" : "errors");
}

class DeskService final : public v1::Desk::CallbackService {
  public:
    explicit DeskService(const VenueParts& parts) : parts_{parts}, calls_{parts} {}

    using Context = grpc::CallbackServerContext;
    using Reactor = grpc::ServerUnaryReactor;

    Reactor* ListMatches(Context* context, const v1::ListMatchesRequest* request,
                         v1::ListMatchesResponse* response) override {
        return read(context, request, response,
                    [this, request] { return calls_.list_matches(*request); });
    }
    Reactor* ListCourts(Context* context, const v1::ListCourtsRequest* request,
                        v1::ListCourtsResponse* response) override {
        return read(context, request, response, [this] { return calls_.list_courts(); });
    }
    Reactor* ListTeams(Context* context, const v1::ListTeamsRequest* request,
                       v1::ListTeamsResponse* response) override {
        return read(context, request, response, [this] { return calls_.list_teams(); });
    }
    Reactor* ImportRoster(Context* context, const v1::ImportRosterRequest* request,
                          v1::ImportRosterResponse* response) override {
        return act(context, request, response, &DeskCalls::import_roster);
    }
    Reactor* CreateMatch(Context* context, const v1::CreateMatchRequest* request,
                         v1::CreateMatchResponse* response) override {
        return act(context, request, response, &DeskCalls::create_match);
    }
    Reactor* AssignCourt(Context* context, const v1::AssignCourtRequest* request,
                         v1::AssignCourtResponse* response) override {
        return act(context, request, response, &DeskCalls::assign_court);
    }
    Reactor* ListResults(Context* context, const v1::ListResultsRequest* request,
                         v1::ListResultsResponse* response) override {
        return read(context, request, response, [this] { return calls_.list_results(); });
    }
    Reactor* IssueCode(Context* context, const v1::IssueCodeRequest* request,
                       v1::IssueCodeResponse* response) override {
        return act(context, request, response, &DeskCalls::issue_code);
    }
    Reactor* ListDevices(Context* context, const v1::ListDevicesRequest* request,
                         v1::ListDevicesResponse* response) override {
        return read(context, request, response, [this] { return calls_.list_devices(); });
    }
    Reactor* RevokeDevice(Context* context, const v1::RevokeDeviceRequest* request,
                          v1::RevokeDeviceResponse* response) override {
        return act(context, request, response, &DeskCalls::revoke_device);
    }
    Reactor* ListAudit(Context* context, const v1::ListAuditRequest* request,
                       v1::ListAuditResponse* response) override {
        return read(context, request, response,
                    [this, request] { return calls_.list_audit(*request); });
    }

  private:
    /// As the record of the tournament names who acts.
    static tournament::Speaker speaker_of(const std::optional<auth::Caller>& who) {
        if (!who) return {};
        return {who->device, std::string{auth::word(who->seat)}};
    }

    template <class Request, class Response, class Body>
    Reactor* read(Context* context, const Request* request, Response* response, Body body) {
        return device_call(parts_, context, request, response, std::move(body), Lane::reads);
    }

    /// What the record of the tournament must have as well: a large list holds up no table that
    /// asks to write.
    template <class Request, class Response>
    Reactor* act(Context* context, const Request* request, Response* response,
                 Answer<Response> (DeskCalls::*call)(const Request&, const tournament::Speaker&)
                     const) {
        const auto speaker = speaker_of(auth::caller(*context->auth_context()));
        return act_by(
            context, request, response, Lane::record,
            [this, speaker, call](const Request& asked) { return (calls_.*call)(asked, speaker); });
    }
    template <class Request, class Response>
    Reactor* act(Context* context, const Request* request, Response* response,
                 Answer<Response> (DeskCalls::*call)(const Request&) const) {
        return act_by(context, request, response, Lane::writes,
                      [this, call](const Request& asked) { return (calls_.*call)(asked); });
    }
    template <class Request, class Response, class Call>
    Reactor* act_by(Context* context, const Request* request, Response* response, Lane lane,
                    Call call) {
        const auto who = auth::caller(*context->auth_context());
        return device_call(
            parts_, context, request, response,
            [this, who, request, call] {
                return audited(
                    parts_, who, words_of(*request), [&] { return call(*request); },
                    [&](const Response& answer) { return nothing_done(*request, answer); });
            },
            lane);
    }

    VenueParts parts_;
    DeskCalls calls_;
};

}  // namespace

std::unique_ptr<grpc::Service> make_desk_service(const VenueParts& parts) {
    return std::make_unique<DeskService>(parts);
}

void renew_courts(const VenueParts& parts) {
    const auto courts = parts.desk.courts();
    if (!courts.ok()) return;  // the cards of known courts stay
    std::set<std::uint32_t> numbers;
    for (const desk::Court& court : *courts) numbers.insert(court.number);
    parts.venue.set_courts(std::move(numbers));
}

}  // namespace courthand::server::service
