// Owning handles for OpenSSL objects, and its error queue as text.
#pragma once

#include <openssl/bio.h>
#include <openssl/bn.h>
#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include <memory>
#include <string>

namespace courthand::server::auth {

template <auto free_function>
struct Freed {
    template <class T>
    void operator()(T* object) const noexcept {
        free_function(object);
    }
};

using BioHandle = std::unique_ptr<BIO, Freed<BIO_free_all>>;
using KeyHandle = std::unique_ptr<EVP_PKEY, Freed<EVP_PKEY_free>>;
using CertificateHandle = std::unique_ptr<X509, Freed<X509_free>>;
using RequestHandle = std::unique_ptr<X509_REQ, Freed<X509_REQ_free>>;
using ExtensionHandle = std::unique_ptr<X509_EXTENSION, Freed<X509_EXTENSION_free>>;
using NameHandle = std::unique_ptr<X509_NAME, Freed<X509_NAME_free>>;
using NumberHandle = std::unique_ptr<BIGNUM, Freed<BN_free>>;
using AlternativeNamesHandle = std::unique_ptr<GENERAL_NAMES, Freed<GENERAL_NAMES_free>>;

/// Takes the oldest error from OpenSSL's queue and empties it, so that it cannot be mistaken for a
/// later one.
[[nodiscard]] inline std::string take_openssl_error() {
    char text[256] = "unknown cause";
    if (const unsigned long code = ERR_get_error()) ERR_error_string_n(code, text, sizeof text);
    ERR_clear_error();
    return text;
}

}  // namespace courthand::server::auth
