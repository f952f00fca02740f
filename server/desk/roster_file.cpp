#include "server/desk/roster_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <optional>
#include <utility>

#include "courthand/event/bounds.h"
#include "courthand/event/choices.h"
#include "courthand/event/limits.h"
#include "courthand/match/fact.h"
#include "server/desk/csv.h"
#include "server/desk/csv_writer.h"
#include "server/desk/text_encoding.h"
#include "wire/message_limits.h"

namespace courthand::server::desk {

namespace {

enum class Column : std::uint8_t {
    team,
    club,
    colour,
    number,
    name,
    captain,
    libero,
    division,
    role,
    last_pool,
};

constexpr std::array<std::pair<Column, std::string_view>, 10> column_names{{
    {Column::team, "team"},
    {Column::club, "club"},
    {Column::colour, "colour"},
    {Column::number, "number"},
    {Column::name, "name"},
    {Column::captain, "captain"},
    {Column::libero, "libero"},
    {Column::division, "division"},
    {Column::role, "role"},
    {Column::last_pool, "last pool"},
}};
constexpr std::string_view known_columns =
    "team, number, club, colour, name, captain, libero, division, role, last pool";

std::string_view name_of(Column column) {
    return column_names[static_cast<std::size_t>(column)].second;
}

std::string lower(std::string_view text) {
    std::string out{text};
    std::transform(out.begin(), out.end(), out.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    return out;
}

std::optional<bool> yes_or_no(std::string_view cell) {
    const std::string word = lower(cell);
    for (const std::string_view yes : {"yes", "y", "x", "1", "true", "c", "l"})
        if (word == yes) return true;
    for (const std::string_view no : {"", "no", "n", "0", "false", "-"})
        if (word == no) return false;
    return std::nullopt;
}

/// Reads rows into teams and collects what is wrong.
class Reading {
  public:
    RosterFile of(std::string_view csv) {
        for (const EncodingFault& bad : encoding_faults(csv))
            fault(bad.line, "", bad.message, bad.cure);
        if (!file_.errors.empty()) return std::move(file_);
        auto read = read_csv(csv);
        if (const auto* error = std::get_if<CsvError>(&read)) {
            file_.errors.push_back({error->line, "", error->message, error->cure});
            return std::move(file_);
        }
        const auto& rows = std::get<std::vector<CsvRow>>(read);
        if (rows.empty()) {
            fault(0, "", "the file is empty", fmt::format("write the columns {}", known_columns));
            return std::move(file_);
        }
        if (read_header(rows.front()))
            for (std::size_t i = 1; i < rows.size(); ++i) read_row(rows[i]);
        if (file_.errors.empty() && file_.teams.empty() && file_.people.empty())
            fault(0, "", "the file lists no player", "write one row for each player");
        return std::move(file_);
    }

  private:
    using Cells = std::map<Column, std::string>;
    struct Place {
        std::size_t team = 0;    ///< in the list of teams
        std::uint32_t line = 0;  ///< on which it came first
    };

    void fault(std::uint32_t line, std::string_view column, std::string message, std::string cure) {
        file_.errors.push_back({line, std::string{column}, std::move(message), std::move(cure)});
    }

    bool read_header(const CsvRow& row) {
        for (const std::string& cell : row.cells) {
            const auto known =
                std::find_if(column_names.begin(), column_names.end(),
                             [&](const auto& column) { return column.second == lower(cell); });
            if (known == column_names.end()) {
                fault(row.line, cell, fmt::format("\"{}\" is not a column of a team list", cell),
                      fmt::format("the columns are {}; remove others", known_columns));
                columns_.push_back(std::nullopt);
                continue;
            }
            if (std::find(columns_.begin(), columns_.end(), known->first) != columns_.end())
                fault(row.line, cell, "this column is there twice", "remove one of them");
            columns_.push_back(known->first);
        }
        for (const Column needed : {Column::team, Column::number})
            if (std::find(columns_.begin(), columns_.end(), needed) == columns_.end())
                fault(row.line, name_of(needed), "this column is missing",
                      fmt::format("the first row must name the columns {}", known_columns));
        return file_.errors.empty();
    }

    void read_row(const CsvRow& row) {
        if (row.cells.size() > columns_.size()) {
            fault(row.line, "",
                  fmt::format("this row has {} cells, but there are {} columns", row.cells.size(),
                              columns_.size()),
                  "put a cell that contains the separator in quotes");
            return;
        }
        Cells cells;
        for (std::size_t i = 0; i < row.cells.size(); ++i)
            cells[*columns_[i]] = unguarded(row.cells[i]);
        if (!on_one_line(row.line, cells)) return;
        const auto role = role_of(row.line, cells[Column::role]);
        if (!role) return;
        if (*role != event::Role::player) return read_person(row.line, *role, cells);
        const std::size_t before = file_.errors.size();
        Team* team = team_of(row.line, cells);
        const std::optional<ListedPlayer> player = player_of(row.line, cells);
        if (team && player && file_.errors.size() == before) add(row.line, *team, *player);
    }

    /// A quoted cell may hold line ends; a name that does would spoil every sheet it stands on.
    bool on_one_line(std::uint32_t line, const Cells& cells) {
        bool fine = true;
        for (const auto& [column, text] : cells) {
            if (text.find_first_of("\r\n\t") == std::string::npos) continue;
            fault(line, name_of(column), "a line end or a tab stands in this cell",
                  "write it on one line");
            fine = false;
        }
        return fine;
    }

    std::optional<event::Role> role_of(std::uint32_t line, const std::string& cell) {
        if (cell.empty()) return event::Role::player;
        const std::string word = lower(cell);
        for (std::size_t i = 0; i < choice_count<event::Role>; ++i)
            if (word == choices<event::Role>[i]) return static_cast<event::Role>(i);
        fault(line, "role", fmt::format("\"{}\" is not a role", cell),
              "write player, coach, official or worker; an empty cell is a player");
        return std::nullopt;
    }

    /// Somebody who does not play. Every cell is looked at, as of a player.
    void read_person(std::uint32_t line, event::Role role, Cells& cells) {
        const std::size_t before = file_.errors.size();
        const std::string who{choice_word(role)};
        const auto has_none = [&](Column column, const char* cure) {
            fault(line, name_of(column), fmt::format("a row of the role {} has none", who), cure);
        };
        if (!cells[Column::number].empty()) has_none(Column::number, "leave the cell empty");
        for (const Column column : {Column::captain, Column::libero})
            if (yes_or_no(cells[column]) != false) has_none(column, "leave the cell empty");
        const bool of_a_team = role == event::Role::coach;
        for (const Column column : {Column::team, Column::club, Column::colour, Column::last_pool})
            if (!of_a_team && !cells[column].empty())
                has_none(column,
                         "leave the cell empty; whom an official should not work is declared at "
                         "the desk");
        RosterPerson person{line, role, {}, {}};
        if (const Team* team = of_a_team ? team_of(line, cells) : nullptr) person.team = team->name;
        if (!cells[Column::name].empty() && short_enough(line, Column::name, cells[Column::name]))
            person.name = cells[Column::name];
        if (file_.errors.size() == before) file_.people.push_back(std::move(person));
    }

    bool short_enough(std::uint32_t line, Column column, const std::string& text) {
        if (wire::fits(text, wire::most_name_bytes)) return true;
        fault(line, name_of(column), fmt::format("longer than {} bytes", wire::most_name_bytes),
              "shorten it");
        return false;
    }

    Team* team_of(std::uint32_t line, Cells& cells) {
        const std::string& name = cells[Column::team];
        if (name.empty()) {
            fault(line, "team", "the name of the team is missing", "write it in every row");
            return nullptr;
        }
        const std::string& club = cells[Column::club];
        const std::string colour = colour_of(line, cells[Column::colour]);
        const bool name_fits = short_enough(line, Column::team, name);
        const bool club_fits = short_enough(line, Column::club, club);
        if (!name_fits || !club_fits) return nullptr;
        const std::string division = cells[Column::division];
        if (!is_a_code(line, division)) return nullptr;
        const std::string last_pool = cells[Column::last_pool];
        if (!is_a_pool(line, last_pool)) return nullptr;
        const auto known = places_.find(lower(name));
        if (known == places_.end())
            return new_team(line, {{}, name, club, colour, {}, division, last_pool});
        return same_team(line, file_.teams[known->second.team], known->second, cells, colour);
    }

    static bool word_or_none(const std::string& cell) {
        return cell.empty() || (event::is_word(cell) && cell.size() <= event::most_word_bytes);
    }

    bool is_a_pool(std::uint32_t line, const std::string& pool) {
        if (word_or_none(pool)) return true;
        fault(
            line, name_of(Column::last_pool), fmt::format("\"{}\" is not the name of a pool", pool),
            "write up to 48 letters, digits and - . _ + / without blanks, such as C, or leave the "
            "cell empty");
        return false;
    }

    bool is_a_code(std::uint32_t line, const std::string& division) {
        if (word_or_none(division)) return true;
        fault(line, "division", fmt::format("\"{}\" is not the code of a division", division),
              "write up to 48 letters, digits and - . _ + / without blanks, such as U16");
        return false;
    }

    Team* new_team(std::uint32_t line, Team team) {
        if (file_.teams.size() == most_teams) {
            if (!std::exchange(too_many_told_, true))
                fault(line, "team", fmt::format("more than {} teams", most_teams),
                      "import them in a tournament of their own");
            return nullptr;
        }
        places_[lower(team.name)] = {file_.teams.size(), line};
        file_.teams.push_back(std::move(team));
        return &file_.teams.back();
    }

    /// A team is called by its name alone: two of one name could not be told apart on any sheet.
    Team* same_team(std::uint32_t line, Team& team, const Place& place, Cells& cells,
                    const std::string& colour) {
        const std::size_t before = file_.errors.size();
        const std::string& division = cells[Column::division];
        std::string& known = team.division;
        if (cells[Column::team] != team.name)
            fault(line, "team",
                  fmt::format("\"{}\" is written \"{}\" on line {}", cells[Column::team], team.name,
                              place.line),
                  "write the name of a team in the same way in every row");
        else if (cells[Column::club] != team.club)
            two_of_one_name(line, team, "club", cells[Column::club], team.club, place);
        if (known.empty()) known = division;
        if (!division.empty() && division != known)
            two_of_one_name(line, team, "division", division, known, place);
        const std::string& last_pool = cells[Column::last_pool];
        if (team.last_pool.empty()) team.last_pool = last_pool;
        if (!last_pool.empty() && last_pool != team.last_pool)
            two_of_one_name(line, team, name_of(Column::last_pool), last_pool, team.last_pool,
                            place);
        if (team.colour.empty()) team.colour = colour;
        if (!colour.empty() && colour != team.colour)
            fault(line, "colour",
                  fmt::format("{} had the colour {} before", team.name, team.colour),
                  "write the same colour in every row of a team");
        return file_.errors.size() == before ? &team : nullptr;
    }

    void two_of_one_name(std::uint32_t line, const Team& team, std::string_view column,
                         const std::string& here, const std::string& there, const Place& place) {
        const auto quoted = [](const std::string& text) {
            return text.empty() ? std::string{"none"} : fmt::format("\"{}\"", text);
        };
        fault(line, column,
              fmt::format("{} of line {} has another {}: {} there, {} here", team.name, place.line,
                          column, quoted(there), quoted(here)),
              fmt::format("two teams need two names; one team needs the same {} in every row",
                          column));
    }

    std::string colour_of(std::uint32_t line, std::string_view cell) {
        if (cell.substr(0, 1) == "#") cell.remove_prefix(1);
        const std::string colour = lower(cell);
        const bool hex = colour.find_first_not_of("0123456789abcdef") == std::string::npos;
        if (colour.empty() || (hex && colour.size() == wire::colour_bytes)) return colour;
        fault(line, "colour", fmt::format("\"{}\" is not a colour", cell),
              "write six digits from 0 to 9 and a to f, such as 1f3a5f, or leave the cell empty");
        return {};
    }

    /// Every cell is looked at, also after a bad one: a line is mended in one go.
    std::optional<ListedPlayer> player_of(std::uint32_t line, Cells& cells) {
        ListedPlayer player;
        const std::size_t before = file_.errors.size();
        player.number = number_of(line, cells[Column::number]);
        if (!cells[Column::name].empty() && short_enough(line, Column::name, cells[Column::name]))
            player.name = cells[Column::name];
        player.captain = mark_of(line, Column::captain, cells);
        player.libero = mark_of(line, Column::libero, cells);
        return file_.errors.size() == before ? std::optional{player} : std::nullopt;
    }

    Jersey number_of(std::uint32_t line, const std::string& number) {
        unsigned value = 0;
        const auto [end, error] =
            std::from_chars(number.data(), number.data() + number.size(), value);
        if (error != std::errc{} || end != number.data() + number.size() ||
            value > Jersey::largest) {
            fault(line, "number",
                  number.empty() ? std::string{"the number is missing"}
                                 : fmt::format("\"{}\" is not a jersey number", number),
                  "write a whole number from 0 to 99");
            return Jersey::none();
        }
        return Jersey{static_cast<std::uint8_t>(value)};
    }

    bool mark_of(std::uint32_t line, Column column, Cells& cells) {
        const auto mark = yes_or_no(cells[column]);
        if (!mark)
            fault(line, name_of(column), fmt::format("\"{}\" is neither yes nor no", cells[column]),
                  "write yes, or leave the cell empty");
        return mark.value_or(false);
    }

    void add(std::uint32_t line, Team& team, const ListedPlayer& player) {
        const auto& listed = team.players;
        const auto same = [&](const ListedPlayer& other) { return other.number == player.number; };
        const auto captain = [](const ListedPlayer& other) { return other.captain; };
        if (std::any_of(listed.begin(), listed.end(), same))
            fault(line, "number",
                  fmt::format("{} has number {} already", team.name, player.number.number()),
                  "give one of the two players another number");
        else if (player.captain && std::any_of(listed.begin(), listed.end(), captain))
            fault(line, "captain", fmt::format("{} has a captain already", team.name),
                  "mark one player only");
        else if (listed.size() == most_players)
            fault(line, "team", fmt::format("{} has more than {} players", team.name, most_players),
                  "shorten the list");
        else
            team.players.push_back(player);
    }

    RosterFile file_;
    std::vector<std::optional<Column>> columns_;
    std::map<std::string, Place> places_;  ///< by name in small letters
    bool too_many_told_ = false;
};

}  // namespace

RosterFile read_roster_file(std::string_view csv) {
    return Reading{}.of(csv);
}

}  // namespace courthand::server::desk
