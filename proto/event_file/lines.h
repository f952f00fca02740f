// The lines of an event file: a whole tournament as JSON lines, to be kept, checked and brought
// into another database. proto/event_file/README.md shows each kind.
//
// Bytes of entries stand in it exactly as they were kept. Writing is deterministic: the same values
// give the same line.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "courthand/event/summary.h"
#include "courthand/v1/match.pb.h"
#include "wire/read_entry.h"

namespace courthand::event_file {

/// Of the form of the file. Another one is another form, which this program does not know.
inline constexpr int version = 1;
/// A line: the final places of 512 teams with the longest names are under 400 KiB.
inline constexpr std::size_t most_line_bytes = 1024 * 1024;
/// A file: 50,000 facts and the records of the matches of the largest event.
inline constexpr std::size_t most_file_bytes = std::size_t{1024} * 1024 * 1024;

/// What the words beside a fact are.
struct Beside {
    enum class State : std::uint8_t {
        none,
        words,
        erased,    ///< for good
        left_out,  ///< of this file: the names of persons were not asked for
    } state = State::none;
    std::string salt;
    std::string text;
    friend bool operator==(const Beside&, const Beside&) = default;
};

struct HeadLine {
    int version = event_file::version;
    wire::Uuid tournament;
    std::string name;
};
struct FactLine {
    std::uint32_t number = 0;
    wire::Hash hash{};
    std::string bytes;
    Beside beside;
};
/// A match as the desk planned it; the entries of its record follow.
struct MatchLine {
    v1::Match plan;
};
struct EntryLine {
    wire::Uuid match;
    std::uint32_t number = 0;
    wire::Hash hash{};
    std::string bytes;
    std::string signature;  ///< empty: not signed
};
/// An entry beside the record of a match: of a fenced writer, or of a fork. It counts for nothing.
struct BranchLine {
    wire::Uuid match;
    std::uint32_t branch = 0;  ///< number of the branch at its match, from 1
    std::uint32_t number = 0;  ///< of the entry, as its device counted
    wire::Hash hash{};
    std::string bytes;
    std::string signature;  ///< empty: not signed
};
/// All entries beside a record.
struct BesideRecord {
    std::uint32_t entries = 0;
    wire::Hash hash{};  ///< of their hashes one behind the other; all zero without any
    friend bool operator==(const BesideRecord&, const BesideRecord&) = default;
};
[[nodiscard]] BesideRecord beside_record(const std::vector<wire::Hash>& hashes);

/// The last entry of a record: of the tournament or of a match.
struct RecordLine {
    wire::Uuid record;
    wire::Head head;
    BesideRecord beside{};
};
struct EndLine {
    std::uint32_t lines = 0;  ///< before this one
    wire::Hash hash{};        ///< of their bytes with their line ends
};

using Line = std::variant<HeadLine, FactLine, MatchLine, EntryLine, BranchLine, event::Drawn,
                          event::PoolPlaces, event::FinalPlaces, RecordLine, EndLine>;

/// What is wrong, where, and what can be done about it.
struct Fault {
    std::uint32_t line = 0;  ///< of the file, from 1; 0: the file as a whole
    std::string message;
    std::string cure;
    friend bool operator==(const Fault&, const Fault&) = default;
};

/// Without the line end.
[[nodiscard]] std::string written(const Line& line);

/// `number` of the line in the file, for the message.
[[nodiscard]] std::variant<Line, Fault> read_line(std::string_view text, std::uint32_t number);

}  // namespace courthand::event_file
