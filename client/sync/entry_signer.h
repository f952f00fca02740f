// Signs entries with the key of the device that made them, so that any device may hand them on and
// the server still knows whose they are.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <variant>

namespace courthand::client {

class EntrySigner {
  public:
    /// `pem` is the device's private key, ECDSA on P-256. Otherwise a sentence.
    [[nodiscard]] static std::variant<EntrySigner, std::string> from_pem(const std::string& pem);

    /// ECDSA with SHA-256 over the bytes of one entry, DER, up to 72 bytes. Empty only when
    /// the library fails. Thread-safe.
    [[nodiscard]] std::string sign(std::string_view entry) const;

  private:
    struct Key;
    explicit EntrySigner(std::shared_ptr<const Key> key) : key_{std::move(key)} {}
    std::shared_ptr<const Key> key_;
};

}  // namespace courthand::client
