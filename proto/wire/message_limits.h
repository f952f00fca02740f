// A bound for everything that travels, with its reason. The bounds are the same on both sides, so
// that a device never journals what the server would refuse.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

#include "courthand/v1/entry.pb.h"
#include "courthand/v1/match.pb.h"

namespace courthand::wire {

/// Names of persons, teams, clubs, devices and functions, in bytes: three times what fits on a
/// tile, enough for 21 characters of any script.
inline constexpr std::size_t most_name_bytes = 64;
/// A remark or a ruling in a person's words: a paragraph on the signed record.
inline constexpr std::size_t most_remark_bytes = 500;
/// A shirt colour: six hexadecimal digits.
inline constexpr std::size_t colour_bytes = 6;
/// Named officials of a match; the published sheets have room for nine.
inline constexpr std::size_t most_officials = 12;
/// One entry. The longest real one, a team list of 24 with names and a remark, is under 3 KiB.
inline constexpr std::size_t most_entry_bytes = 4096;
/// Entries in one push or one piece of a snapshot: about two sets, and at the largest entry size
/// 2 MiB, half of what gRPC takes by default.
inline constexpr std::size_t most_batch_entries = 500;
/// One message that a device sends: twice the largest push.
inline constexpr std::size_t most_message_bytes = 4UL * 1024 * 1024;
/// What gRPC reads at all: above our own limit, so that who goes past that hears our words and the
/// cure. Beyond this one gRPC refuses in its own words.
inline constexpr int most_read_bytes = 8 * 1024 * 1024;
/// Matches planned on one court after the present one.
inline constexpr std::size_t most_following = 50;
/// A roster file: 500 teams of 24 with long names are about 0.8 MB.
inline constexpr std::size_t most_roster_file_bytes = 1024 * 1024;
/// Row errors of one import that are listed; nobody mends more in one go.
inline constexpr std::size_t most_row_errors = 100;
/// A rule profile; the built-in ones are under 8 KiB.
inline constexpr std::size_t most_profile_bytes = 64 * 1024;
/// A certificate signing request (PEM); an EC one is under 1 KiB.
inline constexpr std::size_t most_signing_request_bytes = 16 * 1024;
/// A watch cursor.
inline constexpr std::size_t most_cursor_bytes = 64;
/// An alert id: match id as text, entry number and code word.
inline constexpr std::size_t most_alert_id_bytes = 128;
/// A rule profile's id, or a reason word.
inline constexpr std::size_t most_word_bytes = 64;
/// Courts of one event: the largest halls side by side have some two hundred. Further digits on a
/// sign are a mistake.
inline constexpr std::uint32_t most_courts = 1000;
/// Writers of one match, one after the other: each is a grant that people gave, or one of a few
/// that a restore has lost. The databases of server and tables keep it as a small integer.
inline constexpr std::uint32_t most_epochs = 1'000'000;
/// The year 2100: further ahead nobody plans a match.
inline constexpr std::int64_t latest_scheduled_us = 4'102'444'800'000'000;
/// A signature of an entry, DER: at most 72 bytes for P-256.
inline constexpr std::size_t most_signature_bytes = 80;
/// Lines of the audit in one answer.
inline constexpr std::uint32_t most_audit_lines = 200;
/// Minutes an alert can be shelved: it must come back while the match lasts.
inline constexpr std::uint32_t most_shelved_minutes = 60;
/// Minutes an enrolment code can live: one day of set-up.
inline constexpr std::uint32_t most_code_minutes = 1440;
inline constexpr std::uint32_t usual_code_minutes = 15;

static_assert(most_batch_entries * most_entry_bytes <= 2 * 1024 * 1024,
              "a full batch stays well under gRPC's default of 4 MiB");

/// What is wrong with a message: the place, and what to do about it.
struct Unreadable {
    std::string field;    ///< "fact.libero_replacement.in"; empty: the message as a whole
    std::string message;  ///< "107 is not a jersey number (0 to 99)"
    /// Both in one line.
    [[nodiscard]] std::string text() const {
        return field.empty() ? message : field + ": " + message;
    }
};

/// The first bound that an entry breaks: ids, hash, texts. The fact itself is checked by
/// `from_proto`.
[[nodiscard]] std::optional<Unreadable> limit_broken(const v1::Entry& entry);

/// The same for a match as a table or desk sends it.
[[nodiscard]] std::optional<Unreadable> limit_broken(const v1::Match& match);

/// True for valid UTF-8 of at most `most` bytes without control characters.
[[nodiscard]] bool fits(std::string_view text, std::size_t most) noexcept;

}  // namespace courthand::wire
