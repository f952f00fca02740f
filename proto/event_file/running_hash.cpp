#include "event_file/running_hash.h"

#include <openssl/evp.h>

#include <cstdlib>

namespace courthand::event_file {

struct RunningHash::Parts {
    EVP_MD_CTX* context = EVP_MD_CTX_new();
    ~Parts() { EVP_MD_CTX_free(context); }
};

RunningHash::RunningHash() : parts_{std::make_unique<Parts>()} {
    // As in wire/sha256.cpp: a wrong hash must not go unnoticed.
    if (EVP_DigestInit_ex(parts_->context, EVP_sha256(), nullptr) != 1) std::abort();
}
RunningHash::~RunningHash() = default;

void RunningHash::add(std::string_view bytes) {
    if (EVP_DigestUpdate(parts_->context, bytes.data(), bytes.size()) != 1) std::abort();
}

wire::Hash RunningHash::end() {
    wire::Hash hash{};
    if (EVP_DigestFinal_ex(parts_->context, hash.data(), nullptr) != 1) std::abort();
    return hash;
}

}  // namespace courthand::event_file
