#include "server/auth/postgres/pg_enrolment_store.h"

#include "server/store/postgres/text_form.h"

namespace courthand::server::auth {

namespace {

using postgres::Database;
using postgres::id_of;
using postgres::microseconds;
using postgres::moment;

// Moments travel as microseconds since 1970.
#define COURTHAND_MOMENT(column) "(extract(epoch from " column ") * 1000000)::bigint"
#define COURTHAND_TIME(place) "to_timestamp(" place "::float8 / 1000000)"

Database::Statements statements() {
    return {
        {"code_add",
         "insert into enrolment_code (tournament_id, hash, lookup, seat, court, expires_at, "
         "tries_left) values ($1, $2, $3, $4, $5, " COURTHAND_TIME("$6") ", $7)"},
        {"codes_like",
         "select hash, lookup, seat, court, " COURTHAND_MOMENT(
             "expires_at") ", tries_left, " COURTHAND_MOMENT("used_at") " from enrolment_code "
                                                                        "where tournament_id = $1 "
                                                                        "and lookup = $2 order by "
                                                                        "created_at"},
        {"code_wrong_try",
         "update enrolment_code set tries_left = tries_left - 1 where tournament_id = $1 "
         "and lookup = $2 and used_at is null and tries_left > 0"},
        {"code_use", "update enrolment_code set used_at = " COURTHAND_TIME(
                         "$3") " where tournament_id = $1 "
                               "and hash = $2 and used_at is null and tries_left > 0 "
                               "and expires_at > " COURTHAND_TIME("$3")},
        {"device_add",
         "insert into device (tournament_id, device_id, name, seat, court, enrolled_at, key) "
         "values ($1, $2, $3, $4, $5, " COURTHAND_TIME("$6") ", $7)"},
        {"device", "select device_id, name, seat, court, " COURTHAND_MOMENT(
                       "enrolled_at") ", " COURTHAND_MOMENT("revoked_at") ", key from device where "
                                                                          "tournament_id = $1 and "
                                                                          "device_id = $2"},
        {"devices",
         "select device_id, name, seat, court, " COURTHAND_MOMENT(
             "enrolled_at") ", " COURTHAND_MOMENT("revoked_at") ", key from device where "
                                                                "tournament_id = $1 order by "
                                                                "enrolled_at, device_id"},
        {"devices_revoked",
         "select device_id from device where tournament_id = $1 and revoked_at is not null"},
        {"device_revoke", "update device set revoked_at = coalesce(revoked_at, " COURTHAND_TIME(
                              "$3") ") "
                                    "where tournament_id = $1 and device_id = $2"},
    };
}

#undef COURTHAND_MOMENT
#undef COURTHAND_TIME

std::optional<Instant> moment_or_none(const pqxx::field& field) {
    if (field.is_null()) return std::nullopt;
    return moment(field);
}

StoredCode code_of(const pqxx::row& row) {
    StoredCode code;
    code.hash = row[0].c_str();
    code.lookup = row[1].c_str();
    code.seat = seat_of(row[2].c_str()).value_or(Seat::table);
    code.court = row[3].as<CourtNumber>();
    code.expires = moment(row[4]);
    code.tries_left = static_cast<std::uint8_t>(row[5].as<int>());
    code.used = moment_or_none(row[6]);
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

class PgEnrolmentStore final : public EnrolmentStore {
  public:
    PgEnrolmentStore(Database& database, TournamentId tournament)
        : database_{database}, tournament_{to_text(tournament)} {
        database_.add_statements(statements());
    }

    void add_code(const StoredCode& code) override {
        throw_if_failed(database_.run("add an enrolment code", [&](pqxx::work& work) {
            work.exec_prepared("code_add", tournament_, code.hash, code.lookup,
                               std::string{word(code.seat)}, code.court, microseconds(code.expires),
                               static_cast<int>(code.tries_left));
        }));
    }

    std::vector<StoredCode> codes_like(const std::string& lookup) override {
        return value_or_throw(database_.perform("read enrolment codes", [&](pqxx::work& work) {
            std::vector<StoredCode> codes;
            for (const pqxx::row& row : work.exec_prepared("codes_like", tournament_, lookup))
                codes.push_back(code_of(row));
            return codes;
        }));
    }

    void count_wrong_try(const std::string& lookup) override {
        throw_if_failed(database_.run("count a wrong code", [&](pqxx::work& work) {
            work.exec_prepared("code_wrong_try", tournament_, lookup);
        }));
    }

    bool use_code(const std::string& hash, const Device& device, Instant now) override {
        return value_or_throw(database_.perform("enrol a device", [&](pqxx::work& work) {
            const auto used = work.exec_prepared("code_use", tournament_, hash, microseconds(now));
            if (used.affected_rows() == 0) return false;
            work.exec_prepared("device_add", tournament_, to_text(device.who.device), device.name,
                               std::string{word(device.who.seat)}, device.who.court,
                               microseconds(device.enrolled), postgres::bytea(device.key));
            return true;
        }));
    }

    std::optional<Device> device(DeviceId id) override {
        return value_or_throw(database_.perform("read a device", [&](pqxx::work& work) {
            const auto rows = work.exec_prepared("device", tournament_, to_text(id));
            return rows.empty() ? std::optional<Device>{} : std::optional{device_of(rows[0])};
        }));
    }

    std::vector<Device> devices() override {
        return value_or_throw(database_.perform("read the devices", [&](pqxx::work& work) {
            std::vector<Device> devices;
            for (const pqxx::row& row : work.exec_prepared("devices", tournament_))
                devices.push_back(device_of(row));
            return devices;
        }));
    }

    bool revoke(DeviceId id, Instant now) override {
        return value_or_throw(database_.perform("revoke a device", [&](pqxx::work& work) {
            return work.exec_prepared("device_revoke", tournament_, to_text(id), microseconds(now))
                       .affected_rows() > 0;
        }));
    }

    std::vector<DeviceId> revoked_devices() override {
        return value_or_throw(database_.perform("read revoked devices", [&](pqxx::work& work) {
            std::vector<DeviceId> revoked;
            for (const pqxx::row& row : work.exec_prepared("devices_revoked", tournament_))
                revoked.push_back(id_of<DeviceId>(row[0]));
            return revoked;
        }));
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
