// Any text is a script or an error inside the text; a script survives writing and reading.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "courthand/script/script.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text{reinterpret_cast<const char*>(data), size};
    const auto read = courthand::read_script(text);
    if (const auto* script = std::get_if<courthand::Script>(&read)) {
        const std::string written = courthand::write_script(*script);
        const auto again = courthand::read_script(written);
        const auto* second = std::get_if<courthand::Script>(&again);
        if (second == nullptr || courthand::write_script(*second) != written) std::abort();
    } else if (std::get<courthand::ScriptError>(read).message.empty()) {
        std::abort();
    }
    return 0;
}
