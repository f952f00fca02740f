#include "server/auth/roles.h"

#include <array>

namespace courthand::server::auth {

namespace {

constexpr Role open(std::string_view method) {
    return {method, true, false, false, false};
}
constexpr Role only_table(std::string_view method) {
    return {method, false, true, false, false};
}
constexpr Role only_desk(std::string_view method) {
    return {method, false, false, true, false};
}
constexpr Role only_head(std::string_view method) {
    return {method, false, false, false, true};
}
constexpr Role desk_and_head(std::string_view method) {
    return {method, false, false, true, true};
}
constexpr Role every_seat(std::string_view method) {
    return {method, false, true, true, true};
}

// A table records its match and sees what concerns it; the desk plans; the head official decides.
constexpr std::array table{
    // Its Watch has no row: a stream that anybody may hold open helps nobody in a hall.
    open("/grpc.health.v1.Health/Check"),
    open("/courthand.v1.Enrolment/Enrol"),

    only_table("/courthand.v1.Sync/Push"),
    only_table("/courthand.v1.Sync/GrantWriter"),
    every_seat("/courthand.v1.Sync/Watch"),
    every_seat("/courthand.v1.Sync/FetchMatch"),

    desk_and_head("/courthand.v1.Venue/WatchBoard"),
    desk_and_head("/courthand.v1.Venue/Claim"),
    desk_and_head("/courthand.v1.Venue/Shelve"),
    desk_and_head("/courthand.v1.Venue/Acknowledge"),
    only_head("/courthand.v1.Venue/Rule"),
    desk_and_head("/courthand.v1.Venue/AnswerTakeOver"),
    desk_and_head("/courthand.v1.Venue/ShowFork"),
    desk_and_head("/courthand.v1.Venue/SettleFork"),

    desk_and_head("/courthand.v1.Desk/ListMatches"),
    desk_and_head("/courthand.v1.Desk/ListCourts"),
    desk_and_head("/courthand.v1.Desk/ListTeams"),
    desk_and_head("/courthand.v1.Desk/ListResults"),
    desk_and_head("/courthand.v1.Desk/ListDevices"),
    desk_and_head("/courthand.v1.Desk/ListAudit"),
    only_desk("/courthand.v1.Desk/ImportRoster"),
    only_desk("/courthand.v1.Desk/CreateMatch"),
    only_desk("/courthand.v1.Desk/AssignCourt"),
    only_desk("/courthand.v1.Desk/IssueCode"),
    only_desk("/courthand.v1.Desk/RevokeDevice"),

    desk_and_head("/courthand.v1.Tournament/WatchRecord"),
    only_desk("/courthand.v1.Tournament/Act"),
    only_desk("/courthand.v1.Tournament/EraseWords"),
    only_desk("/courthand.v1.Export/ExportEvent"),

    // Only there when a developer switches it on.
    every_seat("/grpc.reflection.v1alpha.ServerReflection/ServerReflectionInfo"),
};

}  // namespace

std::span<const Role> roles() noexcept {
    return table;
}

const Role* role_of(std::string_view method) noexcept {
    for (const Role& role : table)
        if (role.method == method) return &role;
    return nullptr;
}

bool allows(const Role& role, Seat seat) noexcept {
    switch (seat) {
        case Seat::table:
            return role.table;
        case Seat::desk:
            return role.desk;
        case Seat::head:
            return role.head;
    }
    return false;
}

}  // namespace courthand::server::auth
