// The version of the conversation between client and server.
//
// It grows only when an old server could misunderstand a new client. New fields and new words need
// no new version.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace courthand::wire {

inline constexpr std::uint32_t protocol_version = 1;

/// Key of the call metadata that carries the client's version as decimal digits.
inline constexpr const char* protocol_metadata_key = "courthand-protocol";

/// Why a server of this build cannot serve a client that sent `metadata`, in a sentence for people;
/// nothing when it can. `metadata` is the value of `protocol_metadata_key`, empty when missing.
[[nodiscard]] std::optional<std::string> protocol_refusal(std::string_view metadata);

}  // namespace courthand::wire
