#include "client/session/match_words.h"

#include <fmt/format.h>

namespace courthand::client {

std::string match_words(const MatchSheet& sheet) {
    const std::string teams = fmt::format("{} - {}", sheet.names.a, sheet.names.b);
    return sheet.number == 0 ? teams : fmt::format("{}, match {}", teams, sheet.number);
}

}  // namespace courthand::client
