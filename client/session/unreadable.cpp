#include "client/session/unreadable.h"

#include <fmt/format.h>

namespace courthand::client {

std::string unreadable_words(std::string_view why) {
    return fmt::format(
        "The journal of this device cannot be read: {}. The screen shows what was read last. Start "
        "the program again, which keeps all that is whole; if that does not help, go on with "
        "another device of this court, keep this one and tell the desk.",
        why);
}

}  // namespace courthand::client
