// Reads a script that a test knows to be right, or fails the test with the reader's own message.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string_view>
#include <variant>

#include "courthand/script/script.h"

namespace courthand {

inline Script script_of(std::string_view text) {
    const std::variant<Script, ScriptError> read = read_script(text);
    if (const auto* const error = std::get_if<ScriptError>(&read)) {
        ADD_FAILURE() << fmt::format("{}:{}: {}; {}", error->line, error->column, error->message,
                                     error->cure);
        return {};
    }
    return std::get<Script>(read);
}

}  // namespace courthand
