// Answers of the core for the Python models, one line for each question.
#pragma once

namespace courthand::event_probe {

/// Ranks pools read from standard input: a line "POOL chain teams matches cuts…", then a line for
/// each match "first second score…". Prints the places, teams that need a decision joined by "=".
int pools();

}  // namespace courthand::event_probe
