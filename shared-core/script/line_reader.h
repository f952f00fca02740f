// Reads the words of one script line from left to right.
//
// The first mistake sticks: from then on every call answers with a harmless value and moves
// nothing, so that a caller reads a whole line and asks once at the end whether it failed.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "courthand/match/choices.h"
#include "courthand/match/jersey.h"
#include "courthand/match/team.h"
#include "courthand/rules/reason.h"
#include "script/tokens.h"
#include "script/words.h"

namespace courthand::script {

class LineReader {
  public:
    LineReader(Tokens tokens, std::uint32_t line) : tokens_{std::move(tokens)}, line_{line} {}

    [[nodiscard]] bool failed() const noexcept { return error_.has_value(); }
    [[nodiscard]] const ScriptError& error() const { return *error_; }
    /// True when no word is left, and after a mistake.
    [[nodiscard]] bool at_end() const noexcept { return failed() || next_ >= tokens_.items.size(); }
    [[nodiscard]] bool next_is(std::string_view word) const noexcept;
    [[nodiscard]] bool next_is_number() const noexcept;
    [[nodiscard]] bool next_is_team() const noexcept { return next_is("A") || next_is("B"); }
    [[nodiscard]] bool next_is_quoted() const noexcept {
        return !at_end() && tokens_.items[next_].quoted;
    }

    /// Moves over `word` when it comes next.
    bool accept(std::string_view word) noexcept;
    /// The word must come next.
    void require(std::string_view word);
    /// Any unquoted word; `what` names what is missing otherwise.
    std::string word(std::string_view what);
    std::string quoted(std::string_view what);
    Team team();
    Jersey jersey(std::string_view what = "a player's number");
    /// `what` with its article, for the message.
    std::uint8_t number(std::string_view what, unsigned low, unsigned high);
    /// The N of "@N", from 1 to `last`.
    std::uint32_t entry_number(std::uint32_t last);
    Reason reason();
    /// A number, "none", or "?" for a blank box.
    LiberoBox libero_box(std::string_view what);

    template <class Table>
    auto choice(const Table& table, std::string_view what) {
        const std::string typed = word(what);
        for (const auto& row : table)
            if (row.word == typed) return row.value;
        std::vector<std::string_view> known;
        for (const auto& row : table) known.push_back(row.word);
        unknown_word(what, typed, known);
        return table.front().value;
    }

    /// One of the first `allowed` words of a choice.
    template <Choice Value>
    Value choice(std::string_view what, std::size_t allowed = choice_count<Value>) {
        const std::string typed = word(what);
        for (std::size_t i = 0; i < allowed; ++i)
            if (choices<Value>[i] == typed) return static_cast<Value>(i);
        unknown_word(what, typed, {choices<Value>.data(), choices<Value>.data() + allowed});
        return Value{};
    }

    /// Nothing may be left on the line.
    void finish();

    /// The word read last is wrong.
    void fail(std::string message, std::string cure);
    /// What stands in `column` is wrong.
    void fail_at(std::uint32_t column, std::string message, std::string cure);
    /// Where the word read last begins.
    [[nodiscard]] std::uint32_t column() const noexcept;
    /// The word read last is none of `known`.
    void unknown_word(std::string_view what, std::string_view typed,
                      const std::vector<std::string_view>& known);

  private:
    const Token* take(std::string_view what);
    [[nodiscard]] std::uint32_t column_of_next() const noexcept;

    Tokens tokens_;
    std::uint32_t line_;
    std::size_t next_ = 0;
    std::optional<ScriptError> error_;
};

}  // namespace courthand::script
