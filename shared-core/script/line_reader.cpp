#include "script/line_reader.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <charconv>

#include "script/near_miss.h"

namespace courthand::script {
namespace {

/// A list of more words than this is no help in a message.
constexpr std::size_t listed_words = 11;

std::optional<unsigned> whole_number(std::string_view text) noexcept {
    unsigned value = 0;
    const char* const end = text.data() + text.size();
    const std::from_chars_result read = std::from_chars(text.data(), end, value);
    if (read.ec != std::errc{} || read.ptr != end) return std::nullopt;
    return value;
}

std::vector<std::string_view> reason_words() {
    std::vector<std::string_view> words;
    for (std::size_t i = 0; i < reason_count; ++i)
        words.push_back(describe(static_cast<Reason>(i)).word);
    return words;
}

}  // namespace

bool LineReader::next_is(std::string_view word) const noexcept {
    return !at_end() && !tokens_.items[next_].quoted && tokens_.items[next_].text == word;
}

bool LineReader::next_is_number() const noexcept {
    if (at_end() || tokens_.items[next_].quoted) return false;
    const char first = tokens_.items[next_].text.front();
    return first >= '0' && first <= '9';
}

bool LineReader::accept(std::string_view word) noexcept {
    if (!next_is(word)) return false;
    ++next_;
    return true;
}

void LineReader::require(std::string_view word) {
    if (failed() || accept(word)) return;
    if (at_end()) {
        fail_at(column_of_next(), fmt::format("the word '{}' is missing here", word),
                fmt::format("write '{}' and what belongs to it", word));
    } else {
        fail_at(column_of_next(),
                fmt::format("'{}' stands where '{}' belongs", tokens_.items[next_].text, word),
                fmt::format("write '{}' here", word));
    }
}

const Token* LineReader::take(std::string_view what) {
    if (failed()) return nullptr;
    if (at_end()) {
        fail_at(column_of_next(), fmt::format("{} is missing here", what),
                fmt::format("add {}", what));
        return nullptr;
    }
    return &tokens_.items[next_++];
}

std::string LineReader::word(std::string_view what) {
    const Token* const token = take(what);
    if (token == nullptr) return {};
    if (token->quoted)
        fail(fmt::format("a quoted text stands where {} belongs", what),
             fmt::format("write {} without quotation marks", what));
    return token->text;
}

std::string LineReader::quoted(std::string_view what) {
    const Token* const token = take(what);
    if (token == nullptr) return {};
    if (!token->quoted)
        fail(fmt::format("{} must stand in quotation marks", what),
             "put \" before and after it, also when it is one word");
    return token->text;
}

Team LineReader::team() {
    const std::string typed = word("a team, A or B");
    if (typed == "B") return Team::B;
    if (!failed() && typed != "A")
        fail(fmt::format("'{}' is not a team", typed), "write A or B, as capital letters");
    return Team::A;
}

Jersey LineReader::jersey(std::string_view what) {
    return Jersey{number(what, 0, Jersey::largest)};
}

std::uint8_t LineReader::number(std::string_view what, unsigned low, unsigned high) {
    const std::string typed = word(what);
    if (failed()) return static_cast<std::uint8_t>(low);
    const std::optional<unsigned> value = whole_number(typed);
    if (!value) {
        fail(fmt::format("'{}' stands where {} belongs", typed, what),
             fmt::format("write {}, {} to {}, in digits", what, low, high));
    } else if (*value < low || *value > high) {
        fail(fmt::format("{} cannot be {}", what, *value),
             fmt::format("write a number from {} to {}", low, high));
    } else {
        return static_cast<std::uint8_t>(*value);
    }
    return static_cast<std::uint8_t>(low);
}

std::uint32_t LineReader::entry_number(std::uint32_t last) {
    const std::string typed = word("an entry number such as @12");
    if (failed()) return 1;
    const std::string_view digits = std::string_view{typed}.substr(typed.front() == '@' ? 1 : 0);
    const std::optional<unsigned> value = whole_number(digits);
    if (typed.front() != '@' || !value)
        fail(fmt::format("'{}' is not an entry number", typed),
             "write @ and the number that the replay shows for the entry, such as @12");
    else if (*value == 0 || *value > last)
        fail(fmt::format("there is no earlier entry {}", *value),
             fmt::format("name an entry from @1 to @{}", last));
    else
        return *value;
    return 1;
}

Reason LineReader::reason() {
    const std::string typed = word("a reason code");
    if (failed()) return Reason{};
    if (const std::optional<Reason> reason = reason_of(typed)) return *reason;
    unknown_word("a reason code", typed, reason_words());
    return Reason{};
}

LiberoBox LineReader::libero_box(std::string_view what) {
    if (accept("none")) return {.mark = LiberoBox::Mark::none, .number = {}};
    if (accept("?")) return {};
    return {.mark = LiberoBox::Mark::number, .number = jersey(what)};
}

void LineReader::finish() {
    if (at_end()) return;
    fail_at(column_of_next(),
            fmt::format("'{}' is more than this line can hold", tokens_.items[next_].text),
            "remove it, or put # before a comment");
}

void LineReader::fail(std::string message, std::string cure) {
    fail_at(column(), std::move(message), std::move(cure));
}

std::uint32_t LineReader::column() const noexcept {
    return next_ == 0 ? 1 : tokens_.items[next_ - 1].column;
}

void LineReader::unknown_word(std::string_view what, std::string_view typed,
                              const std::vector<std::string_view>& known) {
    if (failed()) return;
    const std::string otherwise = known.size() <= listed_words
                                      ? fmt::format("write one of: {}", fmt::join(known, ", "))
                                      : std::string{
                                            "all of them are listed in "
                                            "shared-core/SCRIPT.md, under Words"};
    fail(fmt::format("'{}' is not {}", typed, what), suggestion(typed, known, otherwise));
}

std::uint32_t LineReader::column_of_next() const noexcept {
    return next_ < tokens_.items.size() ? tokens_.items[next_].column : tokens_.end;
}

void LineReader::fail_at(std::uint32_t column, std::string message, std::string cure) {
    if (failed()) return;
    error_ = ScriptError{line_, column, std::move(message), std::move(cure)};
}

}  // namespace courthand::script
