// Answers of the core for the Python models, one line of JSON for each question.
#pragma once

namespace courthand::event_probe {

/// Ranks pools read from standard input (pool_reader.h): places, comparisons, records.
int pools();

/// What each team of such a pool still needs.
int needs();

/// Every bracket of 2 to 64 teams.
int graphs();

/// Who of pools of four enters a bracket, for every number of pools and of those who go on.
int crossings();

/// Draws of pools, by the snake and by lot.
int draws();

/// Teams moved by hand in such pools, with what that breaks and mends.
int moves();

/// Draws of the seeds of a bracket by lot.
int lots();

/// The rounds of the circle method for every number of teams.
int rounds();

/// The orders of play for every number of teams and up to nine courts.
int orders();

}  // namespace courthand::event_probe
