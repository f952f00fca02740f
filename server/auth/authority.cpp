#include "server/auth/authority.h"

#include <arpa/inet.h>
#include <openssl/hmac.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <system_error>
#include <vector>

#include "server/auth/certificates.h"
#include "server/auth/key_files.h"

namespace courthand::server::auth {

namespace fs = std::filesystem;

struct Authority::Parts {
    fs::path folder;
    KeyHandle key;
    CertificateHandle certificate;
    std::string certificate_pem;
    Fingerprint fingerprint{};
};

Authority::Authority(std::unique_ptr<Parts> parts) noexcept : parts_{std::move(parts)} {}
Authority::Authority(Authority&&) noexcept = default;
Authority& Authority::operator=(Authority&&) noexcept = default;
Authority::~Authority() = default;

namespace {

// As the wire format allows; a request with one P-256 key is below 1 KiB.
constexpr std::size_t largest_request = 16 * 1024;

Status failed(std::string message, std::string cure) {
    return Status::failed(StatusCode::unavailable, std::move(message), std::move(cure));
}

Status disk_failure(const fs::path& path) {
    return failed(
        "cannot write " + path.string() + " (" + std::strerror(errno) + ")",
        "give the server's account write access to this folder, or make room on the disk");
}

Status openssl_failure(const std::string& what) {
    // Waiting helps as little as another database.
    return Status::failed(StatusCode::internal,
                          "cannot make " + what + " (" + take_openssl_error() + ")",
                          "restart the server; if it stays, reinstall the OpenSSL library");
}

bool ends_before(const X509& certificate, Instant at) {
    const std::time_t limit = std::chrono::system_clock::to_time_t(at);
    return ASN1_TIME_cmp_time_t(X509_get0_notAfter(&certificate), limit) < 0;
}

bool is_address(const std::string& name) {
    unsigned char bytes[sizeof(in6_addr)];
    return ::inet_pton(AF_INET, name.c_str(), bytes) == 1 ||
           ::inet_pton(AF_INET6, name.c_str(), bytes) == 1;
}

// Letters, digits, dot, hyphen, colon: anything else could be read as configuration by OpenSSL.
bool plain_name(const std::string& name) {
    constexpr std::string_view good =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-:";
    return !name.empty() && name.size() <= 253 && name.find_first_not_of(good) == std::string::npos;
}

std::vector<std::string> server_names(std::span<const std::string> more) {
    std::vector<std::string> names{"localhost", "127.0.0.1", "::1"};
    char host[256] = "";
    if (::gethostname(host, sizeof host - 1) == 0 && plain_name(host)) names.emplace_back(host);
    for (const std::string& name : more)
        if (plain_name(name)) names.push_back(name);
    return names;
}

bool names_all(X509& certificate, const std::vector<std::string>& names) {
    for (const std::string& name : names) {
        const bool named = is_address(name) ? X509_check_ip_asc(&certificate, name.c_str(), 0) == 1
                                            : X509_check_host(&certificate, name.c_str(),
                                                              name.size(), 0, nullptr) == 1;
        if (!named) return false;
    }
    return true;
}

CertificateWish authority_wish(Instant now) {
    return {"Courthand venue authority",
            now - Authority::backdated,
            now + Authority::authority_lasts,
            {{NID_basic_constraints, "critical,CA:TRUE,pathlen:0"},
             {NID_key_usage, "critical,keyCertSign,cRLSign"},
             {NID_subject_key_identifier, "hash"}},
            {}};
}

CertificateWish server_wish(const std::vector<std::string>& names, Instant now) {
    std::string alternatives;
    for (const std::string& name : names) {
        if (!alternatives.empty()) alternatives += ',';
        alternatives += (is_address(name) ? "IP:" : "DNS:") + name;
    }
    return {"Courthand server",
            now - Authority::backdated,
            now + Authority::server_lasts,
            {{NID_basic_constraints, "critical,CA:FALSE"},
             {NID_key_usage, "critical,digitalSignature"},
             {NID_ext_key_usage, "serverAuth"},
             {NID_authority_key_identifier, "keyid"},
             {NID_subject_alt_name, alternatives}},
            {}};
}

CertificateWish device_wish(const Caller& device, Instant now) {
    return {"device " + to_text(device.device),
            now - Authority::backdated,
            now + Authority::device_lasts,
            {{NID_basic_constraints, "critical,CA:FALSE"},
             {NID_key_usage, "critical,digitalSignature"},
             {NID_ext_key_usage, "clientAuth"},
             {NID_authority_key_identifier, "keyid"}},
            {uri_of(device)}};
}

struct KeyAndCertificate {
    KeyHandle key;
    CertificateHandle certificate;
};

// The key is written before the certificate: a start cut short in between leaves a key without a
// certificate, which counts as nothing made yet.
Status save(const fs::path& folder, const std::string& name, const KeyAndCertificate& pair) {
    const fs::path key_path = folder / (name + ".key");
    const fs::path certificate_path = folder / (name + ".crt");
    if (!write_secret_file(key_path, pem_of(*pair.key))) return disk_failure(key_path);
    if (!write_secret_file(certificate_path, pem_of(*pair.certificate)))
        return disk_failure(certificate_path);
    return Status::fine();
}

KeyAndCertificate load(const fs::path& folder, const std::string& name) {
    KeyAndCertificate pair;
    if (const auto pem = read_file(folder / (name + ".key"))) pair.key = read_key(*pem);
    if (const auto pem = read_file(folder / (name + ".crt")))
        pair.certificate = read_certificate(*pem);
    const bool belong = pair.key && pair.certificate &&
                        X509_check_private_key(pair.certificate.get(), pair.key.get()) == 1;
    ERR_clear_error();
    return belong ? std::move(pair) : KeyAndCertificate{};
}

// A new authority would lock out every enrolled device, so a damaged one is never replaced.
Result<KeyAndCertificate> load_or_make_authority(const fs::path& folder, Instant now) {
    KeyAndCertificate pair = load(folder, "authority");
    if (pair.key) return pair;
    if (fs::exists(folder / "authority.crt"))
        return failed("the venue authority in " + folder.string() + " cannot be read",
                      "put back authority.key and authority.crt from a backup; or move the folder "
                      "away, start again and enrol every device anew");
    pair.key = new_key();
    if (pair.key)
        pair.certificate = sign_certificate(authority_wish(now), *pair.key, nullptr, *pair.key);
    if (!pair.certificate) return openssl_failure("the venue authority");
    if (Status saved = save(folder, "authority", pair); !saved.ok()) return saved;
    return pair;
}

Result<RequestHandle> good_request(std::string_view request) {
    const auto unreadable = [](std::string message) {
        return Status::failed(StatusCode::invalid, std::move(message),
                              "enrol again with the Courthand program of this venue");
    };
    if (request.size() > largest_request) return unreadable("the certificate request is too large");
    RequestHandle read = read_request(request);
    if (!read) {
        ERR_clear_error();
        return unreadable("the certificate request cannot be read");
    }
    EVP_PKEY* key = X509_REQ_get0_pubkey(read.get());
    if (!key || !is_p256(*key)) return unreadable("the certificate request has no P-256 key");
    // The signature proves that the device holds the private key it asks a certificate for.
    if (X509_REQ_verify(read.get(), key) != 1) {
        ERR_clear_error();
        return unreadable("the certificate request is not signed by its own key");
    }
    return read;
}

}  // namespace

Result<std::string> key_of_request(std::string_view request) {
    const Result<RequestHandle> read = good_request(request);
    if (!read.ok()) return read.status();
    std::string der = public_key_der(*X509_REQ_get0_pubkey((*read).get()));
    if (der.empty()) return openssl_failure("the device's public key");
    return der;
}

Result<Authority> Authority::open(const fs::path& folder, Instant now) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (!error) fs::permissions(folder, fs::perms::owner_all, error);
    if (error) {
        errno = error.value();
        return disk_failure(folder);
    }
    const FolderLock lock{folder};
    if (!lock.held()) return disk_failure(folder / "lock");

    Result<KeyAndCertificate> made = load_or_make_authority(folder, now);
    if (!made.ok()) return made.status();
    KeyAndCertificate& pair = *made;
    if (ends_before(*pair.certificate, now))
        return failed("the venue authority in " + folder.string() + " has expired",
                      "move the folder away, start again and enrol every device anew");

    auto parts = std::make_unique<Parts>();
    parts->folder = folder;
    parts->key = std::move(pair.key);
    parts->certificate = std::move(pair.certificate);
    parts->certificate_pem = pem_of(*parts->certificate);
    unsigned int length = 0;
    if (X509_digest(parts->certificate.get(), EVP_sha256(), parts->fingerprint.data(), &length) !=
        1)
        return openssl_failure("the fingerprint of the venue authority");
    return Authority{std::move(parts)};
}

Result<ServerIdentity> Authority::server_identity(std::span<const std::string> more_names,
                                                  Instant now) const {
    const FolderLock lock{parts_->folder};
    if (!lock.held()) return disk_failure(parts_->folder / "lock");
    const std::vector<std::string> names = server_names(more_names);
    KeyAndCertificate pair = load(parts_->folder, "server");
    const bool good = pair.key && !ends_before(*pair.certificate, now + renew_before) &&
                      X509_verify(pair.certificate.get(), parts_->key.get()) == 1 &&
                      names_all(*pair.certificate, names);
    if (!good) {
        pair.key = new_key();
        if (pair.key)
            pair.certificate = sign_certificate(server_wish(names, now), *pair.key,
                                                parts_->certificate.get(), *parts_->key);
        if (!pair.key || !pair.certificate) return openssl_failure("the server certificate");
        if (Status saved = save(parts_->folder, "server", pair); !saved.ok()) return saved;
    }
    // The authority goes along in the chain: a device that enrols checks it against its code.
    return ServerIdentity{pem_of(*pair.certificate) + parts_->certificate_pem, pem_of(*pair.key),
                          parts_->certificate_pem};
}

Result<std::string> Authority::sign_device(std::string_view request, const Caller& device,
                                           Instant now) const {
    const Result<RequestHandle> read = good_request(request);
    if (!read.ok()) return read.status();
    EVP_PKEY* key = X509_REQ_get0_pubkey((*read).get());
    const CertificateHandle certificate =
        sign_certificate(device_wish(device, now), *key, parts_->certificate.get(), *parts_->key);
    if (!certificate) return openssl_failure("the device certificate");
    return pem_of(*certificate);
}

std::string Authority::seal(std::string_view secret) const {
    const std::string key = pem_of(*parts_->key);
    const std::string text = "courthand enrolment code " + std::string{secret};
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned int length = 0;
    HMAC(EVP_sha256(), key.data(), static_cast<int>(key.size()),
         reinterpret_cast<const unsigned char*>(text.data()), text.size(), digest.data(), &length);
    std::string hex;
    for (unsigned int i = 0; i < length; ++i) {
        constexpr std::string_view digits = "0123456789abcdef";
        hex += digits[digest[i] >> 4U];
        hex += digits[digest[i] & 15U];
    }
    return hex;
}

const std::string& Authority::certificate_pem() const noexcept {
    return parts_->certificate_pem;
}
const Fingerprint& Authority::fingerprint() const noexcept {
    return parts_->fingerprint;
}

}  // namespace courthand::server::auth
