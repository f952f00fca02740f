#include "event_script/values_read.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "script/format_clauses.h"

namespace courthand::event {
namespace {

[[nodiscard]] int hex_digit(char c) noexcept {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    return -1;
}

template <std::size_t size>
void read_hex(LineReader& line, std::string_view what, std::array<std::uint8_t, size>& out) {
    const std::string typed = line.word(what);
    if (line.failed()) return;
    bool good = typed.size() == 2 * size;
    for (std::size_t i = 0; good && i < size; ++i) {
        const int high = hex_digit(typed[2 * i]);
        const int low = hex_digit(typed[2 * i + 1]);
        good = high >= 0 && low >= 0;
        if (good) out[i] = static_cast<std::uint8_t>(16 * high + low);
    }
    if (!good)
        line.fail(fmt::format("'{}' is not {}", typed, what),
                  fmt::format("write {} digits, 0 to 9 and a to f", 2 * size));
}

[[nodiscard]] std::optional<std::uint64_t> whole(std::string_view text) noexcept {
    std::uint64_t value = 0;
    const char* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, value);
    if (read.ec != std::errc{} || read.ptr != end) return std::nullopt;
    return value;
}

void check_length(LineReader& line, std::string_view what, const std::string& text,
                  const Bounds<std::string>& bounds) {
    if (line.failed()) return;
    const bool control = std::any_of(text.begin(), text.end(), [](char c) {
        return static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
    });
    if (text.empty())
        line.fail(fmt::format("{} is empty", what), "write it, or leave the clause out");
    else if (text.size() > bounds.most_bytes)
        line.fail(fmt::format("{} has more than {} bytes", what, bounds.most_bytes), "shorten it");
    else if (control)
        line.fail(fmt::format("{} runs over more than one line", what), "write it in one line");
}

}  // namespace

std::uint64_t read_number(LineReader& line, std::string_view what, std::uint64_t least,
                          std::uint64_t most) {
    const std::string typed = line.word(what);
    if (line.failed()) return least;
    const std::optional<std::uint64_t> value = whole(typed);
    if (!value)
        line.fail(fmt::format("'{}' stands where {} belongs", typed, what),
                  fmt::format("write {}, {} to {}, in digits", what, least, most));
    else if (*value < least || *value > most)
        line.fail(fmt::format("{} cannot be {}", what, *value),
                  fmt::format("write a number from {} to {}", least, most));
    else
        return *value;
    return least;
}

std::string read_word(LineReader& line, std::string_view what) {
    std::string typed = line.word(what);
    if (line.failed()) return typed;
    if (!is_word(typed))
        line.fail(fmt::format("'{}' is not {}", typed, what),
                  "write letters, digits and - . _ + / only");
    else if (typed.size() > most_word_bytes)
        line.fail(fmt::format("{} has more than {} bytes", what, most_word_bytes), "shorten it");
    return typed;
}

void read_value(LineReader& line, std::string_view what, const Bounds<std::string>& bounds,
                std::string& out) {
    if (bounds.letters == Letters::word) {
        out = read_word(line, what);
        return;
    }
    if (bounds.letters == Letters::colour) {
        out = line.word(what);
        if (!line.failed() && !is_colour(out))
            line.fail(fmt::format("'{}' is no colour", out),
                      "write six hexadecimal digits: 1f3a5f");
        return;
    }
    out = line.quoted(what);
    check_length(line, what, out, bounds);
}

void read_words(LineReader& line, std::string_view what,
                const Bounds<std::vector<std::string>>& bounds, std::vector<std::string>& out) {
    const std::string typed = line.word(what);
    std::string_view rest = typed;
    while (!line.failed()) {
        const std::size_t comma = std::min(rest.find(','), rest.size());
        out.emplace_back(rest.substr(0, comma));
        const bool good = is_word(out.back()) && out.back().size() <= most_word_bytes &&
                          out.size() <= bounds.most_items;
        if (!good)
            line.fail(fmt::format("'{}' is not a list of words", typed),
                      fmt::format("write up to {} words with commas between and no blanks",
                                  bounds.most_items));
        if (comma == rest.size()) return;
        rest.remove_prefix(comma + 1);
    }
}

void read_value(LineReader& line, std::string_view what, const Bounds<Date>&, Date& out) {
    const std::string typed = line.word(what);
    if (line.failed()) return;
    const auto date = date_of(typed);
    if (!date)
        line.fail(fmt::format("'{}' is no day", typed), "write year, month and day: 2026-11-28");
    else
        out = *date;
}

void read_value(LineReader& line, std::string_view what, const Bounds<LocalTime>&, LocalTime& out) {
    const std::string typed = line.word(what);
    if (line.failed()) return;
    const auto time = local_time_of(typed);
    if (!time)
        line.fail(fmt::format("'{}' is no moment", typed),
                  "write day and time of the hall's clock: 2026-11-28T09:30");
    else
        out = *time;
}

// --- sources ------------------------------------------------------------------------------------

bool next_is_source(const LineReader& line) noexcept {
    if (line.next_is_quoted() || line.next_is_number()) return true;
    return line.next_is("winner") || line.next_is("loser") || line.next_is("better") ||
           line.next_is("worse") || line.next_is("bye");
}

namespace {

void read_simple(LineReader& line, std::string_view what, Source& out) {
    if (line.next_is_quoted()) {
        out.kind = Source::Kind::team;
        read_value(line, "a team's name in quotation marks", a_name, out.of);
    } else if (line.next_is_number()) {
        out.kind = Source::Kind::place;
        out.place = line.number("a place in a pool", 1, 255);
        line.require("of");
        out.of = read_word(line, "the name of a pool");
    } else if (line.accept("winner")) {
        out.kind = Source::Kind::winner;
        out.of = read_word(line, "the name of a match");
    } else if (line.accept("loser")) {
        out.kind = Source::Kind::loser;
        out.of = read_word(line, "the name of a match");
    } else {
        const std::string typed = line.word(what);
        line.fail(fmt::format("'{}' is not {}", typed, what),
                  R"(write "Mill Lane", 2 of A, winner M7, loser M7, better … …, or bye)");
    }
}

}  // namespace

void read_value(LineReader& line, std::string_view what, const Bounds<Source>&, Source& out) {
    out = {};
    if (line.accept("bye")) {
        out.kind = Source::Kind::bye;
        return;
    }
    const bool better = line.next_is("better");
    if (!better && !line.next_is("worse")) return read_simple(line, what, out);
    (void)line.accept(better ? "better" : "worse");
    out.kind = better ? Source::Kind::better : Source::Kind::worse;
    out.two.resize(2);
    for (Source& one : out.two) read_simple(line, what, one);
}

// --- scores and formats -------------------------------------------------------------------------

void read_value(LineReader& line, std::string_view what, const Bounds<SetScore>&, SetScore& out) {
    const std::string typed = line.word(what);
    if (line.failed()) return;
    const std::size_t dash = std::min(typed.find('-'), typed.size());
    const auto first = whole(std::string_view{typed}.substr(0, dash));
    const auto second = whole(std::string_view{typed}.substr(std::min(dash + 1, typed.size())));
    if (!first || !second || *first > most_points || *second > most_points)
        line.fail(
            fmt::format("'{}' is not the score of a set", typed),
            fmt::format("write the points of both sides, 0 to {}, such as 25-20", most_points));
    else
        out = {static_cast<std::uint16_t>(*first), static_cast<std::uint16_t>(*second)};
}

void read_value(LineReader& line, std::string_view, const Bounds<FormatChoice>&,
                FormatChoice& out) {
    out = {true, {}};
    MatchFormat& format = out.format;
    const bool all = line.accept("sets");
    if (!all) line.require("best-of");
    script::read_sets(line, format, all);
    for (bool more = true; more;) {
        more = false;
        for (const script::FormatClause& clause : script::format_clauses)
            if (line.accept(clause.word)) {
                script::read_clause(line, clause, format);
                more = true;
            }
    }
}

void read_value(LineReader& line, std::string_view what, const Bounds<Jersey>&, Jersey& out) {
    out = line.jersey(what);
}
void read_value(LineReader& line, std::string_view what, const Bounds<RecordId>&, RecordId& out) {
    read_hex(line, what, out.bytes);
}
void read_value(LineReader& line, std::string_view what, const Bounds<HeadHash>&, HeadHash& out) {
    read_hex(line, what, out.bytes);
}

}  // namespace courthand::event
