// The gate every call passes before any handler sees it: certificate, revocation, role.
//
// Install it on the server credentials; no handler has to remember to ask. Handlers that need to
// know who calls ask `caller(context)`.
#pragma once

#include <grpcpp/security/auth_context.h>
#include <grpcpp/security/auth_metadata_processor.h>
#include <grpcpp/security/server_credentials.h>
#include <grpcpp/support/status.h>

#include <functional>
#include <memory>
#include <optional>
#include <string_view>

#include "server/auth/authority.h"
#include "server/auth/device_register.h"
#include "server/store/status.h"

namespace courthand::server::auth {

/// The enrolled device behind a connection, from its verified certificate; nothing without one.
[[nodiscard]] std::optional<Caller> caller(const grpc::AuthContext& context);

/// May this caller (or nobody) make this call now? Why not: `not_enrolled`, `not_allowed`, or what
/// the store or the register of devices failed with.
[[nodiscard]] Status check_call(const std::optional<Caller>& who, std::string_view method,
                                DeviceRegister& devices);

/// Hears of every call that is turned away; must not block.
using TurnedAway = std::function<void(const std::optional<Caller>& who, std::string_view method,
                                      const Status& why)>;

/// TLS credentials that ask for, verify, but do not require a client certificate, with the gate
/// installed. `devices` must outlive the server.
[[nodiscard]] std::shared_ptr<grpc::ServerCredentials> server_credentials(
    const ServerIdentity& identity, DeviceRegister& devices, TurnedAway turned_away);

}  // namespace courthand::server::auth
