#include "wire/message_limits.h"

#include <fmt/format.h>

#include <string_view>

#include "courthand/match/fact.h"
#include "wire/fact_convert.h"
#include "wire/sha256.h"
#include "wire/uuid.h"

namespace courthand::wire {
namespace {

/// Length of the UTF-8 sequence at the start of `text`, 0 when it is not valid. Refuses over-long
/// forms, surrogates and anything above U+10FFFF, so that PostgreSQL takes what we took.
std::size_t sequence_length(std::string_view text) noexcept {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(0);
    if (lead < 0x80) return 1;
    const std::size_t length = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : 2;
    if (lead < 0xc2 || lead > 0xf4 || text.size() < length) return 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((byte(i) & 0xc0) != 0x80) return 0;
    if (lead == 0xe0 && byte(1) < 0xa0) return 0;
    if (lead == 0xed && byte(1) > 0x9f) return 0;
    if (lead == 0xf0 && byte(1) < 0x90) return 0;
    if (lead == 0xf4 && byte(1) > 0x8f) return 0;
    return length;
}

bool is_colour(std::string_view text) noexcept {
    return text.size() == colour_bytes &&
           text.find_first_not_of("0123456789abcdefABCDEF") == std::string_view::npos;
}

/// Keeps the first broken bound.
class Checker {
  public:
    void text(std::string_view field, std::string_view value, std::size_t most,
              bool required = false) {
        if (required && value.empty()) broken(field, "must not be empty");
        if (value.size() > most)
            broken(field, fmt::format("{} bytes, at most {} are allowed", value.size(), most));
        else if (!fits(value, most))
            broken(field, "holds a control character or is not UTF-8");
    }
    void colour(std::string_view field, std::string_view value) {
        if (!value.empty() && !is_colour(value))
            broken(field, "is not a colour of six hexadecimal digits such as 1f3a5f");
    }
    void id(std::string_view field, std::string_view value, bool required = true) {
        if (value.empty() && !required) return;
        if (value.size() != Uuid::size)
            broken(field, fmt::format("{} bytes, an id has {}", value.size(), Uuid::size));
    }
    void count(std::string_view field, std::uint64_t value, std::uint64_t most,
               std::uint64_t least = 0) {
        if (value < least || value > most)
            broken(field, fmt::format("{} is not within {} to {}", value, least, most));
    }
    void broken(std::string_view field, std::string_view message) {
        if (!first_) first_ = Unreadable{std::string{field}, std::string{message}};
    }
    [[nodiscard]] std::optional<Unreadable> first() const { return first_; }

  private:
    std::optional<Unreadable> first_;
};

void check_text(Checker& check, const v1::FactText& text) {
    check.text("text.team_name", text.team_name(), most_name_bytes);
    check.text("text.club", text.club(), most_name_bytes);
    check.colour("text.colour", text.colour());
    check.count("text.names", static_cast<std::uint64_t>(text.names_size()), most_players);
    for (const v1::RosterPlayer& player : text.names()) {
        check.count("text.names.number", player.number(), Jersey::largest);
        check.text("text.names.name", player.name(), most_name_bytes);
    }
    check.text("text.remark", text.remark(), most_remark_bytes);
    check.text("text.cause_words", text.cause_words(), most_remark_bytes);
    if (text.has_signature()) {
        check.text("text.signature.role", text.signature().role(), most_name_bytes, true);
        check.text("text.signature.name", text.signature().name(), most_name_bytes);
    }
    check.count("text.officials", static_cast<std::uint64_t>(text.officials_size()),
                most_officials);
    for (const v1::Official& official : text.officials()) {
        check.text("text.officials.role", official.role(), most_name_bytes, true);
        check.text("text.officials.name", official.name(), most_name_bytes);
    }
}

void check_team(Checker& check, std::string_view field, const v1::MatchTeam& team) {
    const std::string at{field};
    check.id(at + ".team_id", team.team_id(), false);
    check.text(at + ".name", team.name(), most_name_bytes, true);
    check.text(at + ".club", team.club(), most_name_bytes);
    check.colour(at + ".colour", team.colour());
}

}  // namespace

bool fits(std::string_view text, std::size_t most) noexcept {
    if (text.size() > most) return false;
    while (!text.empty()) {
        const std::size_t length = sequence_length(text);
        const auto lead = static_cast<unsigned char>(text.front());
        const bool control = (lead < 0x20 && lead != '\n' && lead != '\t') || lead == 0x7f;
        if (length == 0 || control) return false;
        text.remove_prefix(length);
    }
    return true;
}

std::optional<Unreadable> limit_broken(const v1::Entry& entry) {
    Checker check;
    check.id("match_id", entry.match_id());
    check.id("entry_id", entry.entry_id());
    check.id("device_id", entry.device_id());
    check.count("epoch", entry.epoch(), most_epochs, 1);
    check.count("seq", entry.seq(), most_entries, 1);
    if (entry.prev_hash().size() != hash_bytes)
        check.broken("prev_hash",
                     fmt::format("{} bytes, a hash has {}", entry.prev_hash().size(), hash_bytes));
    if (const v1::Fact* fact = fact_of(entry); fact != nullptr && fact->has_text())
        check_text(check, fact->text());
    return check.first();
}

std::optional<Unreadable> limit_broken(const v1::Match& match) {
    Checker check;
    check.id("match_id", match.match_id());
    check.id("tournament_id", match.tournament_id(), false);
    check.count("court", match.court(), most_courts);
    check_team(check, "first", match.first());
    check_team(check, "second", match.second());
    check.text("profile_id", match.profile_id(), most_word_bytes, true);
    check.text("name", match.name(), most_word_bytes);
    return check.first();
}

}  // namespace courthand::wire
