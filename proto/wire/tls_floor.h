// TLS 1.3 and nothing older, for servers and clients of gRPC.
//
// gRPC 1.51 has no setting for a lowest version in its public headers, but reads the cipher suites
// of TLS 1.2 from its environment variable GRPC_SSL_CIPHER_SUITES. The ones named here need a key
// shared beforehand, which neither side ever has: a handshake of TLS 1.2 finds no suite in common.
// The suites of TLS 1.3 are a list of their own and are not touched.
#pragma once

namespace courthand::wire {

/// Call it first in `main`, while the process has one thread and before anything of gRPC: gRPC
/// reads the variable once. Replaces what the caller's environment says.
void require_tls_1_3();

}  // namespace courthand::wire
