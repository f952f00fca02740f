#include "script/tokens.h"

#include <fmt/format.h>

namespace courthand::script {
namespace {

/// Bytes of the character that begins with `lead`; 0 for a byte that begins none.
std::size_t sequence_length(unsigned char lead) noexcept {
    if (lead < 0x80) return 1;
    if (lead >= 0xC2 && lead < 0xE0) return 2;
    if (lead >= 0xE0 && lead < 0xF0) return 3;
    if (lead >= 0xF0 && lead < 0xF5) return 4;
    return 0;
}

/// Whether the bytes after the lead belong to it; refuses overlong forms and surrogates.
bool valid_sequence(std::string_view bytes) noexcept {
    const auto at = [&](std::size_t i) { return static_cast<unsigned char>(bytes[i]); };
    for (std::size_t i = 1; i < bytes.size(); ++i)
        if ((at(i) & 0xC0U) != 0x80U) return false;
    if (at(0) == 0xE0) return at(1) >= 0xA0;
    if (at(0) == 0xED) return at(1) < 0xA0;
    if (at(0) == 0xF0) return at(1) >= 0x90;
    if (at(0) == 0xF4) return at(1) < 0x90;
    return true;
}

bool blank(char c) noexcept {
    return c == ' ' || c == '\t';
}
bool control(char c) noexcept {
    return (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7F;
}
bool begins_character(char c) noexcept {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
}

/// Walks over one line, byte by byte, counting characters.
class Cutter {
  public:
    Cutter(std::string_view line, std::uint32_t number) : line_{line}, number_{number} {}

    std::variant<Tokens, ScriptError> cut() {
        Tokens tokens;
        for (skip_blanks(); more() && here() != '#'; skip_blanks()) {
            Token token{.text = {}, .column = column_, .quoted = here() == '"'};
            if (token.quoted ? !quoted(token) : !word(token)) return error_;
            tokens.end = column_;
            tokens.items.push_back(std::move(token));
        }
        return tokens;
    }

  private:
    [[nodiscard]] bool more() const noexcept { return at_ < line_.size(); }
    [[nodiscard]] char here() const noexcept { return line_[at_]; }

    void step() noexcept {
        ++at_;
        if (!more() || begins_character(here())) ++column_;
    }
    void skip_blanks() noexcept {
        while (more() && blank(here())) step();
    }
    bool fail(std::uint32_t column, std::string message, std::string cure) {
        error_ = {.line = number_,
                  .column = column,
                  .message = std::move(message),
                  .cure = std::move(cure)};
        return false;
    }

    bool word(Token& token) {
        for (; more() && !blank(here()); step()) {
            if (here() == '"')
                return fail(column_, "a quotation mark inside a word",
                            "put a space before the opening quotation mark");
            token.text += here();
        }
        return true;
    }

    bool quoted(Token& token) {
        for (step(); more() && here() != '"'; step())
            if (here() == '\\') {
                if (!escape(token)) return false;
            } else {
                token.text += here();
            }
        if (!more())
            return fail(token.column, "a quoted text without its closing quotation mark",
                        "close it with \" on the same line");
        step();
        if (more() && !blank(here()) && here() != '#')
            return fail(column_, "a quoted text runs into the next word",
                        "put a space after the closing quotation mark");
        return true;
    }

    /// Leaves the walk on the last byte of the escape.
    bool escape(Token& token) {
        const std::uint32_t column = column_;
        step();
        const char c = more() ? here() : ' ';
        if (c == '"' || c == '\\')
            token.text += c;
        else if (c == 'n')
            token.text += '\n';
        else if (c == 't')
            token.text += '\t';
        else
            return fail(column, "a backslash that introduces nothing",
                        R"(write \" for a quotation mark, \\ for a backslash, \n for a new line)");
        return true;
    }

    std::string_view line_;
    std::uint32_t number_;
    std::size_t at_ = 0;
    std::uint32_t column_ = 1;
    ScriptError error_;
};

std::uint32_t column_after(std::size_t characters) {
    return static_cast<std::uint32_t>(characters + 1);
}

}  // namespace

Utf8Length utf8_length(std::string_view text) noexcept {
    Utf8Length length;
    for (std::size_t i = 0; i < text.size(); ++length.characters) {
        const std::size_t bytes = sequence_length(static_cast<unsigned char>(text[i]));
        if (bytes == 0 || i + bytes > text.size() || !valid_sequence(text.substr(i, bytes))) {
            length.valid = false;
            return length;
        }
        i += bytes;
    }
    return length;
}

std::variant<Tokens, ScriptError> cut_line(std::string_view line, std::uint32_t number) {
    const Utf8Length length = utf8_length(line);
    if (!length.valid)
        return ScriptError{number, column_after(length.characters),
                           "a byte that is not part of a UTF-8 character",
                           "save the file as UTF-8 text"};
    if (length.characters > longest_line)
        return ScriptError{number, column_after(longest_line),
                           fmt::format("the line has {} characters, {} are allowed",
                                       length.characters, longest_line),
                           "shorten its text, or write one entry on each line"};
    for (std::size_t i = 0; i < line.size(); ++i)
        if (control(line[i]))
            return ScriptError{number, column_after(utf8_length(line.substr(0, i)).characters),
                               fmt::format("a control character (code {})",
                                           static_cast<int>(static_cast<unsigned char>(line[i]))),
                               "remove it; scripts are plain text"};
    return Cutter{line, number}.cut();
}

}  // namespace courthand::script
