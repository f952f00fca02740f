// Answers of the core for the Python models, one line for each question.
#pragma once

namespace courthand::event_probe {

/// Ranks pools read from standard input: a line "POOL chain teams matches cuts…", then a line for
/// each match "first second score…". Prints the places, teams that need a decision joined by "=".
int pools();

/// Prints every bracket of 2 to 64 teams as one line of JSON.
int graphs();

/// Prints draws of pools, by the snake and by lot, one line of JSON for each.
int draws();

/// Prints the rounds of the circle method for every number of teams.
int rounds();

}  // namespace courthand::event_probe
