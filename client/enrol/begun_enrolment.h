// An enrolment between the answer of the server and the device that has its certificate: the answer
// is kept in the journal first, and a program that was ended in between goes on from there.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <variant>

#include "client/session/device.h"

namespace courthand::client {

/// What the server gave the device, but for the key, which `EnrolmentKey` keeps.
struct EnrolmentAnswer {
    Device device;
    std::string certificate;  ///< PEM
    std::string authority;    ///< PEM
};

/// Durable before it returns.
[[nodiscard]] std::optional<JournalError> keep_answer(Journal& journal,
                                                      const EnrolmentAnswer& answer);
/// Makes the device of a kept answer, if there is one: files, identity, and the key forgotten. Does
/// nothing when no enrolment was cut short. An answer whose key is lost is dropped where the device
/// has credentials without it, and one that was made for another key is refused. A sentence on
/// failure; then it may be tried again.
[[nodiscard]] std::optional<std::string> finish_enrolment(const std::filesystem::path& folder,
                                                          Journal& journal);

}  // namespace courthand::client
