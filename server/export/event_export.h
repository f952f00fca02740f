// Writes a whole event: the event file with every byte of its records, tables, and papers.
#pragma once

#include "server/export/file_sink.h"
#include "server/store/match_store.h"
#include "server/tournament/fact_store.h"

namespace courthand::server::exports {

struct ExportWish {
    /// Of persons, in the event file and in the table of people. Without them the file still
    /// verifies, and what it is brought into has none.
    bool names = false;
};

/// Names of the files, in their order.
inline constexpr const char* event_file_name = "event.jsonl";
inline constexpr const char* papers_file_name = "papers.pdf";

/// Reads the record of the tournament first and the records of matches after it, so that everything
/// a fact rests on is there. The same records give the same bytes.
[[nodiscard]] Status export_event(const Tournament& tournament, MatchStore& matches,
                                  tournament::FactStore& facts, const ExportWish& wish,
                                  FileSink& sink);

}  // namespace courthand::server::exports
