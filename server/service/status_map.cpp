#include "server/service/status_map.h"

#include <algorithm>
#include <array>

namespace courthand::server::service {

namespace {

struct Row {
    StatusCode code{};
    grpc::StatusCode on_the_wire{};
    std::string_view usual_cure;
};

constexpr std::array rows{
    Row{StatusCode::ok, grpc::StatusCode::OK, ""},
    Row{StatusCode::not_found, grpc::StatusCode::NOT_FOUND, "refresh what is shown and try again"},
    Row{StatusCode::already_exists, grpc::StatusCode::ALREADY_EXISTS,
        "use what is there, or give another id"},
    Row{StatusCode::conflict, grpc::StatusCode::ABORTED, "look at what has changed and try again"},
    Row{StatusCode::not_allowed, grpc::StatusCode::PERMISSION_DENIED,
        "use a device whose task it is"},
    Row{StatusCode::not_enrolled, grpc::StatusCode::UNAUTHENTICATED,
        "ask the desk for an enrolment code"},
    Row{StatusCode::invalid, grpc::StatusCode::INVALID_ARGUMENT,
        "correct it; if a program made it, bring that and the server to one version"},
    Row{StatusCode::not_now, grpc::StatusCode::FAILED_PRECONDITION, "look at how it stands now"},
    Row{StatusCode::exhausted, grpc::StatusCode::RESOURCE_EXHAUSTED, "try again a little later"},
    Row{StatusCode::unavailable, grpc::StatusCode::UNAVAILABLE, "try again in a moment"},
    Row{StatusCode::in_doubt, grpc::StatusCode::UNAVAILABLE,
        "try again: what was kept is recognised"},
    Row{StatusCode::schema_newer, grpc::StatusCode::FAILED_PRECONDITION,
        "bring the server to the version of its database"},
    Row{StatusCode::internal, grpc::StatusCode::INTERNAL,
        "try again; tell whoever runs the server when it stays"},
};

const Row& row_of(StatusCode code) noexcept {
    const auto* const row =
        std::find_if(rows.begin(), rows.end(), [&](const Row& one) { return one.code == code; });
    return row == rows.end() ? rows.back() : *row;
}

}  // namespace

grpc::StatusCode code_of(StatusCode code) noexcept {
    return row_of(code).on_the_wire;
}

std::string_view usual_cure(StatusCode code) noexcept {
    return row_of(code).usual_cure;
}

grpc::Status to_grpc(const Status& status) {
    if (status.ok()) return grpc::Status::OK;
    Status told = status;
    if (told.cure.empty()) told.cure = usual_cure(told.code);
    return {code_of(told.code), told.text()};
}

Status own_fault() {
    return Status::failed(StatusCode::internal, "the server met a fault of its own",
                          "try again; tell whoever runs the server when it stays");
}

Status failure_for_strangers(const Status& why) {
    if (!why.passing()) return own_fault();
    return Status::failed(StatusCode::unavailable,
                          "the server cannot reach its database at the moment",
                          "try the same code again in a minute");
}

Status overloaded() {
    return Status::failed(StatusCode::exhausted, "the server has too much to do at the moment",
                          "send it again a little later; nothing is lost");
}

}  // namespace courthand::server::service
