#include "server/auth/postgres/pg_enrolment_store.h"

#include <fmt/format.h>

#include "server/store/postgres/text_form.h"
#include "server/store/postgres/trace.h"

namespace courthand::server::auth {

namespace {

using postgres::bytea;
using postgres::bytes_of;
using postgres::Database;
using postgres::id_of;
using postgres::microseconds;
using postgres::moment;

// Moments travel as microseconds since 1970.
#define COURTHAND_MOMENT(column) "(extract(epoch from " column ") * 1000000)::bigint"
#define COURTHAND_TIME(place) "to_timestamp(" place "::float8 / 1000000)"

#define COURTHAND_DEVICE                                                                           \
    "select device_id, name, seat, court, " COURTHAND_MOMENT("enrolled_at") ", " COURTHAND_MOMENT( \
        "revoked_at") ", coalesce(key, '') from device where tournament_id = $1 "

Database::Statements statements() {
    return {
        {"code_add",
         "insert into enrolment_code (tournament_id, hash, seat, court, expires_at) "
         "values ($1, $2, $3, $4, " COURTHAND_TIME("$5") ")"},
        {"code_forget",
         "delete from enrolment_code where tournament_id = $1 and used_at is null "
         "and expires_at < " COURTHAND_TIME("$2")},
        {"codes_live",
         "select count(*) from enrolment_code where tournament_id = $1 and used_at is null "
         "and expires_at > " COURTHAND_TIME("$2")},
        {"code",
         "select hash, seat, court, " COURTHAND_MOMENT("expires_at") ", " COURTHAND_MOMENT(
             "used_at") ", used_by from enrolment_code where tournament_id = $1 and hash = $2"},
        {"code_use", "update enrolment_code set used_at = " COURTHAND_TIME(
                         "$3") ", used_by = $4 where tournament_id = $1 and hash = $2 "
                               "and used_at is null and expires_at > " COURTHAND_TIME("$3")},
        {"code_hold",
         "select 1 from enrolment_code where tournament_id = $1 and hash = $2 for update"},
        {"device_add",
         "insert into device (tournament_id, device_id, name, seat, court, enrolled_at, key) "
         "values ($1, $2, $3, $4, $5, " COURTHAND_TIME("$6") ", $7::bytea)"},
        {"device", COURTHAND_DEVICE "and device_id = $2"},
        {"devices", COURTHAND_DEVICE "order by enrolled_at, device_id"},
        {"devices_revoked",
         "select device_id from device where tournament_id = $1 and revoked_at is not null"},
        {"device_revoke", "update device set revoked_at = coalesce(revoked_at, " COURTHAND_TIME(
                              "$3") ") where tournament_id = $1 and device_id = $2"},
        // It may send nothing any more, so nobody else could take them away.
        {"device_forget_refused",
         "delete from refused_entry where tournament_id = $1 and device_id = $2"},
    };
}

#undef COURTHAND_DEVICE
#undef COURTHAND_MOMENT
#undef COURTHAND_TIME

std::optional<Instant> moment_or_none(const pqxx::field& field) {
    if (field.is_null()) return std::nullopt;
    return moment(field);
}

StoredCode code_of(const pqxx::row& row) {
    StoredCode code;
    code.hash = row[0].c_str();
    code.seat = seat_of(row[1].c_str()).value_or(Seat::table);
    code.court = row[2].as<CourtNumber>();
    code.expires = moment(row[3]);
    code.used = moment_or_none(row[4]);
    if (!row[5].is_null()) code.used_by = id_of<DeviceId>(row[5]);
    return code;
}

Device device_of(const pqxx::row& row) {
    Device device;
    device.who.device = id_of<DeviceId>(row[0]);
    device.name = row[1].c_str();
    device.who.seat = seat_of(row[2].c_str()).value_or(Seat::table);
    device.who.court = row[3].as<CourtNumber>();
    device.enrolled = moment(row[4]);
    device.revoked = moment_or_none(row[5]);
    if (!row[6].is_null()) device.key = postgres::bytes_of(row[6]);
    return device;
}

/// The trace of what the server could not take from a device, of so many matches.
std::string words_on_refused(pqxx::result::size_type matches) {
    if (matches == 0) return {};
    return fmt::format("entries of {} {} that the server could not take are shown no more", matches,
                       matches == 1 ? "match" : "matches");
}

class PgEnrolmentStore final : public EnrolmentStore {
  public:
    PgEnrolmentStore(Database& database, TournamentId tournament)
        : database_{database}, tournament_{to_text(tournament)} {
        database_.add_statements(statements());
    }

    Status add_code(const StoredCode& code, Instant now) override {
        return database_.run("add an enrolment code", [&](pqxx::work& work) {
            work.exec_prepared("code_forget", tournament_, microseconds(now - expired_codes_kept));
            work.exec_prepared("code_add", tournament_, code.hash, std::string{word(code.seat)},
                               code.court, microseconds(code.expires));
            postgres::leave_trace(work);
        });
    }

    Result<std::size_t> live_codes(Instant now) override {
        return database_.perform("count enrolment codes", [&](pqxx::work& work) {
            return work.exec_prepared1("codes_live", tournament_, microseconds(now))[0]
                .as<std::size_t>();
        });
    }

    Result<std::optional<StoredCode>> code(const std::string& hash) override {
        return database_.perform("read an enrolment code", [&](pqxx::work& work) {
            const auto rows = work.exec_prepared("code", tournament_, hash);
            return rows.empty() ? std::optional<StoredCode>{} : std::optional{code_of(rows[0])};
        });
    }

    Result<bool> use_code(const std::string& hash, const Device& device, Instant now) override {
        return database_.perform("enrol a device", [&](pqxx::work& work) {
            const std::string id = to_text(device.who.device);
            const auto used =
                work.exec_prepared("code_use", tournament_, hash, microseconds(now), id);
            if (used.affected_rows() == 0) {
                // To read it would not wait for a standby that has not confirmed it; a lock does.
                work.exec_prepared("code_hold", tournament_, hash);
                return false;
            }
            work.exec_prepared("device_add", tournament_, id, device.name,
                               std::string{word(device.who.seat)}, device.who.court,
                               microseconds(device.enrolled), bytea(device.key));
            postgres::leave_trace(work,
                                  {"", id, std::string{word(device.who.seat)}, device.who.court});
            return true;
        });
    }

    Result<std::optional<Device>> device(DeviceId id) override {
        return database_.perform("read a device", [&](pqxx::work& work) {
            const auto rows = work.exec_prepared("device", tournament_, to_text(id));
            return rows.empty() ? std::optional<Device>{} : std::optional{device_of(rows[0])};
        });
    }

    Result<std::vector<Device>> devices() override {
        return database_.perform("read the devices", [&](pqxx::work& work) {
            std::vector<Device> devices;
            for (const pqxx::row& row : work.exec_prepared("devices", tournament_))
                devices.push_back(device_of(row));
            return devices;
        });
    }

    Result<bool> revoke(DeviceId id, Instant now) override {
        return database_.perform("revoke a device", [&](pqxx::work& work) {
            const auto revoked =
                work.exec_prepared("device_revoke", tournament_, to_text(id), microseconds(now));
            if (revoked.affected_rows() == 0) return false;
            const auto refused =
                work.exec_prepared("device_forget_refused", tournament_, to_text(id));
            postgres::leave_trace(work, {words_on_refused(refused.affected_rows())});
            return true;
        });
    }

    Result<std::vector<DeviceId>> revoked_devices() override {
        return database_.perform("read revoked devices", [&](pqxx::work& work) {
            std::vector<DeviceId> revoked;
            for (const pqxx::row& row : work.exec_prepared("devices_revoked", tournament_))
                revoked.push_back(id_of<DeviceId>(row[0]));
            return revoked;
        });
    }

  private:
    Database& database_;
    std::string tournament_;
};

}  // namespace

std::unique_ptr<EnrolmentStore> make_pg_enrolment_store(postgres::Database& database,
                                                        TournamentId tournament) {
    return std::make_unique<PgEnrolmentStore>(database, tournament);
}

}  // namespace courthand::server::auth
