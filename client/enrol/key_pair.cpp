#include "client/enrol/key_pair.h"

#include <openssl/bio.h>
#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509.h>

#include <memory>

namespace courthand::client {
namespace {

struct Free {
    void operator()(EVP_PKEY* key) const noexcept { EVP_PKEY_free(key); }
    void operator()(X509* certificate) const noexcept { X509_free(certificate); }
    void operator()(BIO* memory) const noexcept { BIO_free(memory); }
};

std::unique_ptr<BIO, Free> reader_of(const std::string& text) {
    return std::unique_ptr<BIO, Free>{BIO_new_mem_buf(text.data(), static_cast<int>(text.size()))};
}

// The crypto library would ask the terminal for a passphrase.
int no_passphrase(char*, int, int, void*) {
    return 0;
}

}  // namespace

bool belong_together(const std::string& key, const std::string& certificate) {
    const auto key_text = reader_of(key);
    const auto certificate_text = reader_of(certificate);
    if (!key_text || !certificate_text) return false;
    const std::unique_ptr<EVP_PKEY, Free> own{
        PEM_read_bio_PrivateKey(key_text.get(), nullptr, no_passphrase, nullptr)};
    const std::unique_ptr<X509, Free> shown{
        PEM_read_bio_X509(certificate_text.get(), nullptr, no_passphrase, nullptr)};
    const bool fit = own && shown && X509_check_private_key(shown.get(), own.get()) == 1;
    ERR_clear_error();
    return fit;
}

}  // namespace courthand::client
