// Key and certificates of a device in its folder, readable by its owner alone.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "client/enrol/signing_request.h"
#include "client/sync/grpc_courier.h"

namespace courthand::client {

/// Writes the three files (mode 600), all of them durable before it returns. A sentence on failure.
[[nodiscard]] std::optional<std::string> save_credentials(const std::filesystem::path& folder,
                                                          const Credentials& credentials);
/// Reads them, or says that the device must be enrolled first: also where the certificate was made
/// for another key.
[[nodiscard]] std::variant<Credentials, std::string> load_credentials(
    const std::filesystem::path& folder);

/// The key with which this device asks to be enrolled, kept before the asking until an enrolment
/// has succeeded: when the answer is lost, the same code with the same key fetches it again.
class EnrolmentKey {
  public:
    explicit EnrolmentKey(std::filesystem::path folder) : folder_{std::move(folder)} {}

    /// With the kept key, or with a new one, durable before it returns. A sentence on failure.
    [[nodiscard]] std::variant<SigningRequest, std::string> request() const;
    /// The kept key alone, PEM; nothing when there is none, or none that can be read.
    [[nodiscard]] std::optional<std::string> kept() const;
    /// The device has its certificate: the next enrolment is another device, with another key.
    void forget() const;
    [[nodiscard]] std::filesystem::path file() const;

  private:
    std::filesystem::path folder_;
};

}  // namespace courthand::client
