#include "client/sync/entry_signer.h"

#include <openssl/bio.h>
#include <openssl/evp.h>
#include <openssl/pem.h>

#include <utility>

namespace courthand::client {

struct EntrySigner::Key {
    explicit Key(EVP_PKEY* pkey) : key{pkey} {}
    Key(const Key&) = delete;
    Key& operator=(const Key&) = delete;
    ~Key() { EVP_PKEY_free(key); }
    EVP_PKEY* key;
};

std::variant<EntrySigner, std::string> EntrySigner::from_pem(const std::string& pem) {
    const std::unique_ptr<BIO, decltype(&BIO_free)> bio{
        BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())), &BIO_free};
    EVP_PKEY* key = bio ? PEM_read_bio_PrivateKey(bio.get(), nullptr, nullptr, nullptr) : nullptr;
    if (key == nullptr)
        return std::string{"The key of this device cannot be read: enrol the device again."};
    auto owned = std::make_shared<const Key>(key);
    if (EVP_PKEY_is_a(key, "EC") != 1 || EVP_PKEY_get_bits(key) != 256)
        return std::string{
            "The key of this device is not of the kind the venue uses: enrol the device again."};
    return EntrySigner{std::move(owned)};
}

std::string EntrySigner::sign(std::string_view entry) const {
    const std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context{EVP_MD_CTX_new(),
                                                                          &EVP_MD_CTX_free};
    if (!context ||
        EVP_DigestSignInit(context.get(), nullptr, EVP_sha256(), nullptr, key_->key) != 1)
        return {};
    const auto* data = reinterpret_cast<const unsigned char*>(entry.data());
    std::size_t size = 0;
    if (EVP_DigestSign(context.get(), nullptr, &size, data, entry.size()) != 1) return {};
    std::string signature(size, '\0');
    if (EVP_DigestSign(context.get(), reinterpret_cast<unsigned char*>(signature.data()), &size,
                       data, entry.size()) != 1)
        return {};
    signature.resize(size);
    return signature;
}

}  // namespace courthand::client
