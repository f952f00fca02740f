#include "server/store/postgres/match_rows.h"

#include <array>
#include <cstdlib>

namespace courthand::server::postgres {
namespace {

/// Every member of MatchFormat, in the order of the column.
template <class F>
auto format_members(F& f) {
    return std::array{&f.sets, &f.all_sets_played, &f.points,      &f.deciding_points, &f.lead,
                      &f.cap,  &f.deciding_cap,    &f.start_score, &f.switch_at};
}

MatchFormat format_of(const pqxx::field& field) {
    MatchFormat format{};
    const char* text = field.c_str();
    for (std::uint8_t* member : format_members(format)) {
        while (*text == '{' || *text == ',') ++text;
        char* end = nullptr;
        *member = static_cast<std::uint8_t>(std::strtoul(text, &end, 10));
        text = end;
    }
    return format;
}

std::uint64_t profile_hash_of(const pqxx::field& field) {
    std::uint64_t hash = 0;
    for (const char c : bytes_of(field)) hash = hash << 8 | static_cast<unsigned char>(c);
    return hash;
}

std::vector<std::uint32_t> branches_of(const pqxx::field& field) {
    std::vector<std::uint32_t> branches;
    pqxx::array_parser array = field.as_array();
    for (auto next = array.get_next(); next.first != pqxx::array_parser::done;
         next = array.get_next())
        if (next.first == pqxx::array_parser::string_value)
            branches.push_back(static_cast<std::uint32_t>(std::stoul(next.second)));
    return branches;
}

PlannedTeam team_of(const pqxx::row& row, int first) {
    return {id_of<TeamId>(row[first]), row[first + 1].c_str(), row[first + 2].c_str(),
            row[first + 3].c_str()};
}

}  // namespace

const char* const head_columns =
    "epoch, grant_id, writer, self_granted, last_number, head_hash, recovered";

const char* const match_columns =
    "match_id, number, court, first_team, first_name, first_club, first_colour, second_team, "
    "second_name, second_club, second_colour, format, profile, profile_hash, status, "
    "(extract(epoch from scheduled_at) * 1000000)::bigint, opened_at_table, "
    "epoch, grant_id, writer, self_granted, last_number, head_hash, recovered, asked_by, "
    "(extract(epoch from asked_at) * 1000000)::bigint, "
    // In the order of an index that begins with the match, whatever the planner knows (see by_key).
    "array(select distinct branch from (select b.branch from branch b "
    "where b.tournament_id = match.tournament_id and b.match_id between match.match_id "
    "and match.match_id order by b.match_id) b order by 1), name";

MatchHead match_head(const pqxx::row& row, int first) {
    MatchHead head;
    head.epoch = row[first].as<Epoch>();
    head.grant = id_of<GrantId>(row[first + 1]);
    head.writer = id_of<DeviceId>(row[first + 2]);
    head.self_granted = row[first + 3].as<bool>();
    head.last = row[first + 4].as<EntryNumber>();
    head.hash = hash_of_field(row[first + 5]);
    head.recovered = row[first + 6].as<bool>();
    return head;
}

StoredMatch stored_match(TournamentId tournament, const pqxx::row& row) {
    StoredMatch match;
    MatchPlan& plan = match.plan;
    plan.key = {tournament, id_of<MatchId>(row[0])};
    plan.number = row[1].as<std::uint32_t>();
    plan.court = row[2].as<std::uint32_t>();
    plan.first = team_of(row, 3);
    plan.second = team_of(row, 7);
    plan.format = format_of(row[11]);
    plan.profile = row[12].c_str();
    plan.profile_hash = profile_hash_of(row[13]);
    plan.status = static_cast<PlanStatus>(row[14].as<int>());
    if (!row[15].is_null()) plan.scheduled_at = moment(row[15]);
    plan.opened_at_table = row[16].as<bool>();
    match.head = match_head(row, 17);
    if (!row[24].is_null()) match.asked = TakeOverAsked{id_of<DeviceId>(row[24]), moment(row[25])};
    match.branches = branches_of(row[26]);
    plan.name = row[27].c_str();
    return match;
}

std::string format_text(const MatchFormat& format) {
    ArrayText array;
    for (const std::uint8_t* member : format_members(format)) array.add_number(*member);
    return array.text();
}

std::string profile_hash_text(std::uint64_t hash) {
    std::string bytes(8, '\0');
    for (std::size_t i = 8; i-- > 0; hash >>= 8) bytes[i] = static_cast<char>(hash & 255);
    return bytea(bytes);
}

}  // namespace courthand::server::postgres
