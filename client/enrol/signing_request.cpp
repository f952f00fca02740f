#include "client/enrol/signing_request.h"

#include <openssl/bio.h>
#include <openssl/ec.h>
#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509.h>

#include <memory>
#include <utility>

namespace courthand::client {
namespace {

struct Free {
    void operator()(EVP_PKEY* key) const noexcept { EVP_PKEY_free(key); }
    void operator()(X509_REQ* request) const noexcept { X509_REQ_free(request); }
    void operator()(BIO* memory) const noexcept { BIO_free(memory); }
};
using Key = std::unique_ptr<EVP_PKEY, Free>;
using Request = std::unique_ptr<X509_REQ, Free>;
using Memory = std::unique_ptr<BIO, Free>;

std::string text_of(BIO* memory) {
    char* data = nullptr;
    const long size = BIO_get_mem_data(memory, &data);
    return {data, static_cast<std::size_t>(size)};
}

// The crypto library would ask the terminal for a passphrase.
int no_passphrase(char*, int, int, void*) {
    return 0;
}

}  // namespace

std::optional<SigningRequest> make_signing_request() {
    const Key key{EVP_EC_gen("P-256")};
    const Memory text{BIO_new(BIO_s_mem())};
    const bool made =
        key && text &&
        PEM_write_bio_PrivateKey(text.get(), key.get(), nullptr, nullptr, 0, nullptr, nullptr) == 1;
    if (!made) return std::nullopt;
    return signing_request_of(text_of(text.get()));
}

std::optional<SigningRequest> signing_request_of(std::string key_pem) {
    const Memory source{BIO_new_mem_buf(key_pem.data(), static_cast<int>(key_pem.size()))};
    const Key key{source ? PEM_read_bio_PrivateKey(source.get(), nullptr, no_passphrase, nullptr)
                         : nullptr};
    const Request request{X509_REQ_new()};
    const Memory text{BIO_new(BIO_s_mem())};
    const bool made = key && request && text && X509_REQ_set_version(request.get(), 0) == 1 &&
                      X509_REQ_set_pubkey(request.get(), key.get()) == 1 &&
                      X509_REQ_sign(request.get(), key.get(), EVP_sha256()) > 0 &&
                      PEM_write_bio_X509_REQ(text.get(), request.get()) == 1;
    ERR_clear_error();
    if (!made) return std::nullopt;
    return SigningRequest{std::move(key_pem), text_of(text.get())};
}

}  // namespace courthand::client
