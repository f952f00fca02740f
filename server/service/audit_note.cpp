#include "server/service/audit_note.h"

#include <utility>

#include "server/domain/ids.h"

namespace courthand::server::service {

void audit_act(const VenueParts& parts, const std::optional<auth::Caller>& who,
               std::string_view act, std::string subject, std::string detail, bool refused) {
    parts.audit.act({0, {}, who, std::string{act}, std::move(subject), std::move(detail), refused});
}

void audit_call(const VenueParts& parts, const std::optional<auth::Caller>& who,
                std::string_view act, std::string subject, std::string detail,
                const grpc::Status& status) {
    if (status.ok()) return audit_act(parts, who, act, std::move(subject), std::move(detail));
    if (!detail.empty()) detail += ": ";
    audit::AuditEntry entry{
        0, {}, who, std::string{act}, std::move(subject), detail + status.error_message(), true};
    parts.audit.refused(who ? to_text(who->device) : "no certificate", std::move(entry));
}

std::string id_text(const std::string& bytes) {
    const auto id = uuid_from_bytes(bytes);
    return id ? to_text(*id) : std::string{};
}

}  // namespace courthand::server::service
