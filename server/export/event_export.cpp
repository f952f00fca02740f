#include "server/export/event_export.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "courthand/event/fold.h"
#include "event_file/event_writer.h"
#include "server/export/event_tables.h"
#include "server/export/planned_match.h"
#include "server/papers/event_papers.h"
#include "wire/event_entry.h"

namespace courthand::server::exports {
namespace {

using event_file::Beside;
using tournament::FactNumber;
using tournament::KeptFact;

constexpr std::size_t entries_per_page = 500;

/// Keeps the first failure of a sink that is written to by a function without an answer.
class Guard {
  public:
    explicit Guard(FileSink& sink) : sink_{sink} {}
    void operator()(std::string_view bytes) {
        if (status_.ok()) status_ = sink_.write(bytes);
    }
    [[nodiscard]] const Status& status() const noexcept { return status_; }

  private:
    FileSink& sink_;
    Status status_;
};

/// The latest name of each person, as far as words stand beside a fact that counts.
class Names {
  public:
    void take(const event::Fact& fact, const std::optional<tournament::BesideWords>& beside) {
        ++number_;
        const auto* listed = std::get_if<event::PersonListed>(&fact);
        if (listed && beside && !beside->text.empty())
            said_.push_back({number_, listed->person, beside->text});
    }
    [[nodiscard]] PersonNames of(const event::TournamentState& state) const {
        PersonNames names;
        for (const auto& said : said_)
            if (state.counts[said.fact - 1]) names[said.person] = said.name;
        return names;
    }

  private:
    struct Said {
        FactNumber fact = 0;
        std::uint16_t person = 0;
        std::string name;
    };
    FactNumber number_ = 0;
    std::vector<Said> said_;
};

/// Without names all words are left out: a reason or a note is free to name somebody. An event
/// that came here without them goes on without them, and none of them was erased.
std::optional<Beside> beside_of(const KeptFact& fact, const ExportWish& wish) {
    if (fact.left_out) return Beside{Beside::State::left_out, {}, {}};
    if (!fact.beside) return std::nullopt;
    if (!wish.names) return Beside{Beside::State::left_out, {}, {}};
    return Beside{Beside::State::words, fact.beside->salt, fact.beside->text};
}

Status write_facts(TournamentId id, tournament::FactStore& store, const ExportWish& wish,
                   event_file::EventWriter& writer, Names& names) {
    for (FactNumber after = 0;;) {
        const auto page = store.read(id, after, tournament::most_facts_per_page);
        if (!page.ok()) return page.status();
        if (page->empty()) return Status::fine();
        for (const KeptFact& fact : *page) {
            const auto read = wire::read_event_entry(*fact.bytes);
            const auto* entry = std::get_if<wire::ReadEventEntry>(&read);
            if (entry == nullptr)
                return Status::failed(
                    StatusCode::schema_newer,
                    fmt::format("fact {} of the tournament's record cannot be read", fact.number),
                    "a newer program wrote it: export with that one");
            names.take(entry->fact(), fact.beside);
            writer.fact(*fact.bytes, beside_of(fact, wish));
            after = fact.number;
        }
    }
}

Status write_record(const StoredMatch& match, MatchStore& store, event_file::EventWriter& writer) {
    for (EntryNumber after = 0; after < match.head.last;) {
        const auto page =
            store.read_record(match.plan.key, after,
                              std::min<std::size_t>(entries_per_page, match.head.last - after));
        if (!page.ok()) return page.status();
        if (page->empty())
            return Status::failed(StatusCode::internal,
                                  fmt::format("entry {} of match {} is missing in the database",
                                              after + 1, to_text(match.plan.key.match)),
                                  "put the database back from a backup");
        for (const StoredEntry& entry : *page) writer.entry(++after, *entry.bytes, entry.signature);
    }
    return Status::fine();
}

/// What lies beside the record, in the order in which it came.
Status write_branches(const StoredMatch& match, MatchStore& store,
                      event_file::EventWriter& writer) {
    if (match.branches.empty()) return Status::fine();
    FeedQuery query;
    query.tournament = match.plan.key.tournament;
    query.matches = {match.plan.key.match};
    while (true) {
        const auto page = store.read_feed(query);
        if (!page.ok()) return page.status();
        if (page->items.empty()) return Status::fine();
        for (const FeedItem& item : page->items)
            if (item.kind == FeedItem::Kind::branch)
                writer.branch_entry(item.branch, item.number, *item.bytes, item.signature);
        query.after = page->items.back().position;
    }
}

Status write_matches(TournamentId id, MatchStore& store, event_file::EventWriter& writer,
                     const Guard& guard) {
    auto matches = store.matches(id);
    if (!matches.ok()) return matches.status();
    std::sort(matches->begin(), matches->end(), [](const StoredMatch& a, const StoredMatch& b) {
        return a.plan.key.match < b.plan.key.match;
    });
    for (const StoredMatch& match : *matches) {
        writer.match(planned(match.plan));
        if (Status status = write_record(match, store, writer); !status.ok()) return status;
        if (Status status = write_branches(match, store, writer); !status.ok()) return status;
        if (!guard.status().ok()) return guard.status();
    }
    return Status::fine();
}

Status write_file(FileSink& sink, const std::string& name, std::string_view bytes) {
    if (Status status = sink.begin(name); !status.ok()) return status;
    return sink.write(bytes);
}

}  // namespace

Status export_event(const Tournament& tournament, MatchStore& matches, tournament::FactStore& facts,
                    const ExportWish& wish, FileSink& sink) {
    if (Status status = sink.begin(event_file_name); !status.ok()) return status;
    Guard guard{sink};
    event_file::EventWriter writer{[&](std::string_view piece) { guard(piece); },
                                   wire::Uuid{tournament.id.value.bytes}, tournament.name};
    Names names;
    if (Status status = write_facts(tournament.id, facts, wish, writer, names); !status.ok())
        return status;
    const std::string head = wire::to_hex(writer.head().hash);
    if (Status status = write_matches(tournament.id, matches, writer, guard); !status.ok())
        return status;
    writer.finish();
    if (!guard.status().ok()) return guard.status();
    const event::TournamentState& state = writer.state();
    const PersonNames told = wish.names ? names.of(state) : PersonNames{};
    for (const TableFile& table : event_tables(state, told))
        if (Status status = write_file(sink, table.name, table.bytes); !status.ok()) return status;
    const auto drawn = papers::event_papers(state, head);
    if (!drawn.ok()) return drawn.status();
    return write_file(sink, papers_file_name, *drawn);
}

}  // namespace courthand::server::exports
