// A script line cut into words and quoted texts. Columns count characters, not bytes, so that an
// error points at the place a person sees.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "courthand/script/script.h"

namespace courthand::script {

struct Token {
    std::string text;          ///< of a quoted text: without the quotes, escapes resolved
    std::uint32_t column = 0;  ///< from 1
    bool quoted = false;
};

struct Tokens {
    std::vector<Token> items;
    std::uint32_t end = 1;  ///< the column right after the last one, where a missing word belongs
};

/// Cuts one line, without its line end. A '#' at the start of a word begins a comment.
[[nodiscard]] std::variant<Tokens, ScriptError> cut_line(std::string_view line,
                                                         std::uint32_t number);

/// Characters of a text, or nothing when it is not UTF-8. `bad` then counts the good ones.
struct Utf8Length {
    std::size_t characters = 0;
    bool valid = true;
};
[[nodiscard]] Utf8Length utf8_length(std::string_view text) noexcept;

}  // namespace courthand::script
