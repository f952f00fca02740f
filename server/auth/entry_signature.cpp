#include "server/auth/entry_signature.h"

#include "server/auth/certificates.h"
#include "server/auth/openssl_handles.h"

namespace courthand::server::auth {

namespace {

using DigestHandle = std::unique_ptr<EVP_MD_CTX, Freed<EVP_MD_CTX_free>>;

const unsigned char* octets(std::string_view bytes) {
    return reinterpret_cast<const unsigned char*>(bytes.data());
}

KeyHandle public_key(std::string_view der) {
    const unsigned char* at = octets(der);
    return KeyHandle{d2i_PUBKEY(nullptr, &at, static_cast<long>(der.size()))};
}

}  // namespace

std::string public_key_of(std::string_view certificate_pem) {
    const CertificateHandle certificate = read_certificate(certificate_pem);
    unsigned char* der = nullptr;
    const int size = certificate ? i2d_PUBKEY(X509_get0_pubkey(certificate.get()), &der) : -1;
    if (size <= 0) {
        ERR_clear_error();
        return {};
    }
    std::string key{reinterpret_cast<const char*>(der), static_cast<std::size_t>(size)};
    OPENSSL_free(der);
    return key;
}

bool signed_by(std::string_view key_der, std::string_view bytes, std::string_view signature) {
    const KeyHandle key = public_key(key_der);
    const DigestHandle digest{EVP_MD_CTX_new()};
    const bool good =
        key && digest && is_p256(*key) &&
        EVP_DigestVerifyInit(digest.get(), nullptr, EVP_sha256(), nullptr, key.get()) == 1 &&
        EVP_DigestVerify(digest.get(), octets(signature), signature.size(), octets(bytes),
                         bytes.size()) == 1;
    ERR_clear_error();
    return good;
}

std::string signature_of(std::string_view private_key_pem, std::string_view bytes) {
    const KeyHandle key = read_key(private_key_pem);
    const DigestHandle digest{EVP_MD_CTX_new()};
    std::size_t size = 0;
    const bool begun =
        key && digest &&
        EVP_DigestSignInit(digest.get(), nullptr, EVP_sha256(), nullptr, key.get()) == 1 &&
        EVP_DigestSign(digest.get(), nullptr, &size, octets(bytes), bytes.size()) == 1;
    std::string signature(begun ? size : 0, '\0');
    const bool made =
        begun && EVP_DigestSign(digest.get(), reinterpret_cast<unsigned char*>(signature.data()),
                                &size, octets(bytes), bytes.size()) == 1;
    signature.resize(made ? size : 0);
    ERR_clear_error();
    return signature;
}

}  // namespace courthand::server::auth
