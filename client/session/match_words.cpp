#include "client/session/match_words.h"

#include <fmt/format.h>

namespace courthand::client {

std::string match_called(const MatchSheet& sheet) {
    if (!sheet.name.empty()) return sheet.name;
    return sheet.number == 0 ? std::string{} : fmt::format("match {}", sheet.number);
}

std::string match_words(const MatchSheet& sheet) {
    const std::string called = match_called(sheet);
    return fmt::format("{} - {}{}{}", sheet.names.a, sheet.names.b, called.empty() ? "" : ", ",
                       called);
}

}  // namespace courthand::client
