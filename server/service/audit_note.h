// One line of the audit for an act of the desk, the head official or an enrolment.
#pragma once

#include <grpcpp/grpcpp.h>

#include <optional>
#include <string>
#include <string_view>

#include "server/auth/caller.h"
#include "server/service/venue_parts.h"

namespace courthand::server::service {

/// Durable on return when the database is there. `act` and `subject` as courthand.v1.AuditLine
/// says; `detail` in words. May wait for the database.
void audit_act(const VenueParts& parts, const std::optional<auth::Caller>& who,
               std::string_view act, std::string subject, std::string detail, bool refused = false);

/// The same for a call that has been worked out: refused when its status is a failure, whose words
/// are then added to `detail`.
void audit_call(const VenueParts& parts, const std::optional<auth::Caller>& who,
                std::string_view act, std::string subject, std::string detail,
                const grpc::Status& status);

/// Status of an answer of a call's body: fine when it holds a response.
template <class Answer>
[[nodiscard]] grpc::Status status_in(const Answer& answer) {
    const auto* status = std::get_if<grpc::Status>(&answer);
    return status != nullptr ? *status : grpc::Status::OK;
}

/// Ids travel as bytes; people and the audit read them as text. Empty for what is no id.
[[nodiscard]] std::string id_text(const std::string& bytes);

}  // namespace courthand::server::service
