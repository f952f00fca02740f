#include "server/service/audit_note.h"

#include <utility>

#include "server/domain/ids.h"

namespace courthand::server::service {

audit::AuditEntry refused_row(const std::optional<auth::Caller>& who, const ActWords& words,
                              const Status& status) {
    const std::string detail = words.detail.empty() ? "" : words.detail + ": ";
    return {0, {}, who, std::string{words.act}, words.subject, detail + status.text(), true};
}

void audit_refused(const VenueParts& parts, const std::optional<auth::Caller>& who,
                   const ActWords& words, const Status& status, Uuid row) {
    audit::AuditEntry entry = refused_row(who, words, status);
    entry.id = row;
    parts.audit.refused(who ? to_text(who->device) : "no certificate", std::move(entry));
}

std::string id_text(const std::string& bytes) {
    const auto id = uuid_from_bytes(bytes);
    return id ? to_text(*id) : std::string{};
}

}  // namespace courthand::server::service
