#include "wire/protocol_version.h"

#include <fmt/format.h>

#include <charconv>

namespace courthand::wire {

std::optional<std::string> protocol_refusal(std::string_view metadata) {
    if (metadata.empty())
        return fmt::format("The client does not say which protocol it speaks; send {} = {}.",
                           protocol_metadata_key, protocol_version);
    std::uint32_t version = 0;
    const auto [end, error] =
        std::from_chars(metadata.data(), metadata.data() + metadata.size(), version);
    if (error != std::errc{} || end != metadata.data() + metadata.size() || version == 0)
        return fmt::format("The value of {} is not a protocol number.", protocol_metadata_key);
    if (version > protocol_version)
        return fmt::format(
            "This device speaks protocol {}, the server only {}. Update the server, or use the "
            "program of the server's version on this device. Nothing recorded here is lost.",
            version, protocol_version);
    return std::nullopt;
}

}  // namespace courthand::wire
