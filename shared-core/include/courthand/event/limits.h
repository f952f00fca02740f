// A bound for everything in the record of a tournament, with its reason. The table for people is in
// shared-core/event/README.md.
#pragma once

#include <cstddef>
#include <cstdint>

namespace courthand::event {

/// Facts of one tournament: an event of 512 teams over four days has about a third of it.
inline constexpr std::size_t most_facts = 50'000;
/// Names of teams, clubs, courts and crews, in bytes: as long as everywhere in the project.
inline constexpr std::size_t most_name_bytes = 64;
/// Codes of divisions, names of pools and matches, ids of profiles, in bytes: they stand on tiles.
inline constexpr std::size_t most_word_bytes = 48;
/// The words beside a fact (a reason, a note), in bytes: a paragraph.
inline constexpr std::size_t most_reason_bytes = 500;
/// Teams of all divisions: the largest halls side by side take some five hundred.
inline constexpr std::size_t most_teams = 512;
inline constexpr std::size_t most_divisions = 32;
/// Further digits on a sign are a mistake.
inline constexpr std::uint16_t most_courts = 1000;
/// Players of 512 teams with their coaches, and the officials.
inline constexpr std::uint16_t most_persons = 20'000;
inline constexpr std::size_t most_crews = 512;
/// Matches of all divisions: what one match graph may hold.
inline constexpr std::size_t most_matches = 4096;
/// Teams or sources that one fact lists: the entrants of the largest bracket.
inline constexpr std::size_t most_listed = 64;
/// Players of one list, as in a match record.
inline constexpr std::size_t most_on_roster = 24;
/// Persons of one crew: two referees, two scorers, four line judges and as many in reserve.
inline constexpr std::size_t most_in_crew = 16;
inline constexpr std::size_t most_features = 8;
/// Places of a pool that matter.
inline constexpr std::size_t most_cuts = 8;
inline constexpr std::size_t most_sets = 5;
/// Points of one set: far above any played one.
inline constexpr std::uint16_t most_points = 199;
/// Lead that wins a set.
inline constexpr std::uint8_t most_lead = 20;
/// Minutes of rest or grace: half a day.
inline constexpr std::uint16_t most_minutes = 720;
/// Versions of a plan.
inline constexpr std::uint32_t most_versions = 10'000;
/// Matches or points carried to one match.
inline constexpr std::uint8_t most_carried = 25;

}  // namespace courthand::event
