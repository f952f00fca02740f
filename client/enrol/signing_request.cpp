#include "client/enrol/signing_request.h"

#include <openssl/bio.h>
#include <openssl/ec.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509.h>

#include <memory>

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

}  // namespace

std::optional<SigningRequest> make_signing_request() {
    const Key key{EVP_EC_gen("P-256")};
    const Request request{X509_REQ_new()};
    const Memory key_text{BIO_new(BIO_s_mem())};
    const Memory request_text{BIO_new(BIO_s_mem())};
    if (!key || !request || !key_text || !request_text) return std::nullopt;
    const bool made = X509_REQ_set_version(request.get(), 0) == 1 &&
                      X509_REQ_set_pubkey(request.get(), key.get()) == 1 &&
                      X509_REQ_sign(request.get(), key.get(), EVP_sha256()) > 0 &&
                      PEM_write_bio_PrivateKey(key_text.get(), key.get(), nullptr, nullptr, 0,
                                               nullptr, nullptr) == 1 &&
                      PEM_write_bio_X509_REQ(request_text.get(), request.get()) == 1;
    if (!made) return std::nullopt;
    return SigningRequest{text_of(key_text.get()), text_of(request_text.get())};
}

}  // namespace courthand::client
