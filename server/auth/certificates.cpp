#include "server/auth/certificates.h"

#include <openssl/pem.h>

namespace courthand::server::auth {

KeyHandle new_key() {
    return KeyHandle{EVP_EC_gen("P-256")};
}

namespace {

BioHandle reader(std::string_view text) {
    return BioHandle{BIO_new_mem_buf(text.data(), static_cast<int>(text.size()))};
}

// OpenSSL asks the terminal for a passphrase by default; a server must not.
int no_passphrase(char*, int, int, void*) {
    return 0;
}

template <class Write>
std::string written(Write&& write) {
    const BioHandle out{BIO_new(BIO_s_mem())};
    if (!out || write(out.get()) != 1) return {};
    char* text = nullptr;
    const long size = BIO_get_mem_data(out.get(), &text);
    return {text, static_cast<std::size_t>(size)};
}

// 127 random bits: unique without a counter that could be lost.
bool set_serial(X509& certificate) {
    const NumberHandle number{BN_new()};
    return number && BN_rand(number.get(), 127, BN_RAND_TOP_ANY, BN_RAND_BOTTOM_ANY) == 1 &&
           BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(&certificate)) != nullptr;
}

bool set_subject(X509& certificate, const std::string& common_name) {
    const auto* text = reinterpret_cast<const unsigned char*>(common_name.c_str());
    return X509_NAME_add_entry_by_txt(X509_get_subject_name(&certificate), "CN", MBSTRING_UTF8,
                                      text, static_cast<int>(common_name.size()), -1, 0) == 1;
}

bool set_times(X509& certificate, Instant from, Instant until) {
    const auto seconds = [](Instant at) { return std::chrono::system_clock::to_time_t(at); };
    return ASN1_TIME_set(X509_getm_notBefore(&certificate), seconds(from)) != nullptr &&
           ASN1_TIME_set(X509_getm_notAfter(&certificate), seconds(until)) != nullptr;
}

bool add_extension(X509& certificate, X509* issuer, const ExtensionText& text) {
    X509V3_CTX context;
    X509V3_set_ctx(&context, issuer, &certificate, nullptr, nullptr, 0);
    const ExtensionHandle extension{
        X509V3_EXT_conf_nid(nullptr, &context, text.id, text.value.c_str())};
    return extension && X509_add_ext(&certificate, extension.get(), -1) == 1;
}

bool add_uris(X509& certificate, const std::vector<std::string>& uris) {
    if (uris.empty()) return true;
    const AlternativeNamesHandle names{sk_GENERAL_NAME_new_null()};
    for (const std::string& uri : uris) {
        GENERAL_NAME* name = GENERAL_NAME_new();
        ASN1_IA5STRING* value = ASN1_IA5STRING_new();
        ASN1_STRING_set(value, uri.data(), static_cast<int>(uri.size()));
        GENERAL_NAME_set0_value(name, GEN_URI, value);
        sk_GENERAL_NAME_push(names.get(), name);
    }
    return X509_add1_ext_i2d(&certificate, NID_subject_alt_name, names.get(), 0, 0) == 1;
}

}  // namespace

KeyHandle read_key(std::string_view pem) {
    return KeyHandle{PEM_read_bio_PrivateKey(reader(pem).get(), nullptr, no_passphrase, nullptr)};
}

CertificateHandle read_certificate(std::string_view pem) {
    return CertificateHandle{PEM_read_bio_X509(reader(pem).get(), nullptr, no_passphrase, nullptr)};
}

RequestHandle read_request(std::string_view bytes) {
    const BioHandle in = reader(bytes);
    if (bytes.substr(0, 5) == "-----")
        return RequestHandle{PEM_read_bio_X509_REQ(in.get(), nullptr, no_passphrase, nullptr)};
    return RequestHandle{d2i_X509_REQ_bio(in.get(), nullptr)};
}

std::string pem_of(const EVP_PKEY& key) {
    return written([&](BIO* out) {
        return PEM_write_bio_PKCS8PrivateKey(out, &key, nullptr, nullptr, 0, nullptr, nullptr);
    });
}

std::string pem_of(const X509& certificate) {
    return written([&](BIO* out) { return PEM_write_bio_X509(out, &certificate); });
}

std::string public_key_der(const EVP_PKEY& key) {
    return written([&](BIO* out) { return i2d_PUBKEY_bio(out, &key); });
}

bool is_p256(const EVP_PKEY& key) {
    char group[64] = "";
    std::size_t length = 0;
    return EVP_PKEY_get_base_id(&key) == EVP_PKEY_EC &&
           EVP_PKEY_get_group_name(&key, group, sizeof group, &length) == 1 &&
           std::string_view{group, length} == "prime256v1";
}

CertificateHandle sign_certificate(const CertificateWish& wish, EVP_PKEY& subject_key, X509* issuer,
                                   EVP_PKEY& issuer_key) {
    CertificateHandle certificate{X509_new()};
    if (!certificate) return nullptr;
    X509* signer = issuer ? issuer : certificate.get();
    bool good = X509_set_version(certificate.get(), X509_VERSION_3) == 1 &&
                set_serial(*certificate) && set_subject(*certificate, wish.common_name) &&
                set_times(*certificate, wish.from, wish.until) &&
                X509_set_pubkey(certificate.get(), &subject_key) == 1 &&
                X509_set_issuer_name(certificate.get(), X509_get_subject_name(signer)) == 1;
    for (const ExtensionText& extension : wish.extensions)
        good = good && add_extension(*certificate, signer, extension);
    good = good && add_uris(*certificate, wish.alternative_uris) &&
           X509_sign(certificate.get(), &issuer_key, EVP_sha256()) > 0;
    return good ? std::move(certificate) : nullptr;
}

}  // namespace courthand::server::auth
