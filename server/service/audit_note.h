// One line of the audit for an act of the desk, the head official or an enrolment.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "server/audit/audit_trail.h"
#include "server/auth/caller.h"
#include "server/service/venue_parts.h"

namespace courthand::server::service {

/// What the audit says an act was done to, and in which words.
struct ActWords {
    std::string_view act;  ///< as courthand.v1.AuditLine says
    std::string subject;
    std::string detail;
};

/// The row of a call that failed, alike for all: what was asked, then why not.
[[nodiscard]] audit::AuditEntry refused_row(const std::optional<auth::Caller>& who,
                                            const ActWords& words, const Status& status);
/// A call that was worked out and failed. `row`: of the act; nil: it was none.
void audit_refused(const VenueParts& parts, const std::optional<auth::Caller>& who,
                   const ActWords& words, const Status& status, Uuid row = {});

/// Works a call out and keeps its row: in the transaction of the act where it is one, else before
/// the answer goes out when the database is there. `nothing_done` says of a response why the call
/// did nothing of what it asked for; empty: it was done. May wait for the database.
template <class Body, class NothingDone>
[[nodiscard]] auto audited(const VenueParts& parts, const std::optional<auth::Caller>& who,
                           const ActWords& words, const Body& body,
                           const NothingDone& nothing_done) {
    std::optional<audit::AuditTrail::Act> act{
        std::in_place, parts.audit,
        audit::AuditEntry{0, {}, who, std::string{words.act}, words.subject, words.detail, false}};
    auto answer = body();
    Status status = answer.status();
    if (status.ok())
        if (std::string why = nothing_done(*answer); !why.empty())
            status = Status::failed(StatusCode::not_now, std::move(why));
    if (status.ok()) {
        act->done();
    } else {
        const Uuid row = act->id();
        act.reset();
        audit_refused(parts, who, words, status, row);
    }
    return answer;
}

/// The same for a call that is done whenever it is answered.
template <class Body>
[[nodiscard]] auto audited(const VenueParts& parts, const std::optional<auth::Caller>& who,
                           const ActWords& words, const Body& body) {
    return audited(parts, who, words, body, [](const auto&) { return std::string{}; });
}

/// Ids travel as bytes; people and the audit read them as text. Empty for what is no id.
[[nodiscard]] std::string id_text(const std::string& bytes);

}  // namespace courthand::server::service
