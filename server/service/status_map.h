// The one table from the server's own statuses to the wire: a code of gRPC for each, and what a
// person or program can do about it where the status does not say.
#pragma once

#include <grpcpp/support/status.h>

#include <string_view>

#include "server/store/status.h"

namespace courthand::server::service {

[[nodiscard]] grpc::StatusCode code_of(StatusCode code) noexcept;
/// What helps with a status that names no cure of its own.
[[nodiscard]] std::string_view usual_cure(StatusCode code) noexcept;
/// Its message ends with a cure, always.
[[nodiscard]] grpc::Status to_grpc(const Status& status);

/// Trailing metadata with which an overloaded server says when to come back; gRPC clients know it.
inline constexpr const char* retry_metadata_key = "grpc-retry-pushback-ms";
inline constexpr const char* retry_after_ms = "250";

/// What a caller hears of a fault of the server's own: it costs this call and no more.
[[nodiscard]] Status own_fault();
/// What somebody without a certificate hears of a failure that is no fault of theirs: nothing about
/// hosts, accounts or tables, and nothing about what they tried.
[[nodiscard]] Status failure_for_strangers(const Status& why);
/// Too much waits already.
[[nodiscard]] Status overloaded();

}  // namespace courthand::server::service
