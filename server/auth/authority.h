// The certificate authority of one venue. Made on the first start in a folder of its own; every
// device pins its certificate. EC P-256. Not thread-safe while opening; const calls are.
#pragma once

#include <array>
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "server/auth/caller.h"
#include "server/store/status.h"

namespace courthand::server::auth {

/// What a server shows its callers: its own certificate with key, and the authority behind it.
struct ServerIdentity {
    std::string cert_chain_pem;
    std::string key_pem;
    std::string authority_pem;
};

/// SHA-256 of the authority's certificate in DER form: what an enrolment code lets a device check.
using Fingerprint = std::array<std::uint8_t, 32>;

class Authority {
  public:
    /// A venue outlives no ten years; a server certificate is renewed a month before its end.
    static constexpr std::chrono::days authority_lasts{3650};
    static constexpr std::chrono::days server_lasts{397};
    static constexpr std::chrono::days renew_before{30};
    /// Devices are enrolled for a season, not for ever.
    static constexpr std::chrono::days device_lasts{397};
    /// Devices with a slow clock must not find a new certificate "not yet valid".
    static constexpr std::chrono::hours backdated{25};

    /// Opens the authority in `folder`, or makes it there (folder mode 700, keys mode 600).
    [[nodiscard]] static Result<Authority> open(const std::filesystem::path& folder, Instant now);

    Authority(Authority&&) noexcept;
    Authority& operator=(Authority&&) noexcept;
    ~Authority();

    /// The certificate of this server: localhost, 127.0.0.1, ::1, the host name and `more_names`
    /// (host names or addresses). Kept in the folder; made anew when near its end or when a name
    /// is missing from it.
    [[nodiscard]] Result<ServerIdentity> server_identity(std::span<const std::string> more_names,
                                                         Instant now) const;

    /// Signs a device's PKCS#10 request (PEM or DER). Only its public key is taken over: who the
    /// device is, is ours to say. The answer is PEM.
    [[nodiscard]] Result<std::string> sign_device(std::string_view request, const Caller& device,
                                                  Instant now) const;

    /// A keyed hash of a short secret, in hex: without the authority's key, nobody who reads the
    /// database can try out the secrets of enrolment codes.
    [[nodiscard]] std::string seal(std::string_view secret) const;

    [[nodiscard]] const std::string& certificate_pem() const noexcept;
    [[nodiscard]] const Fingerprint& fingerprint() const noexcept;

  private:
    struct Parts;
    explicit Authority(std::unique_ptr<Parts> parts) noexcept;
    std::unique_ptr<Parts> parts_;
};

/// The public key (DER, SubjectPublicKeyInfo) for which a PKCS#10 request (PEM or DER) asks a
/// certificate: P-256, and its owner holds the private key.
[[nodiscard]] Result<std::string> key_of_request(std::string_view request);

}  // namespace courthand::server::auth
