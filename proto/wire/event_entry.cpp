#include "wire/event_entry.h"

#include <fmt/format.h>

#include <utility>

#include "courthand/event/limits.h"
#include "wire/event_convert.h"

namespace courthand::wire {
namespace {

[[nodiscard]] EntryHeader header_of(const v1::TournamentEntry& entry) {
    EntryHeader header;
    header.match_id = Uuid::from_bytes(entry.tournament_id()).value_or(Uuid{});
    header.epoch = 1;
    header.seq = entry.seq();
    header.entry_id = Uuid::from_bytes(entry.entry_id()).value_or(Uuid{});
    header.device_id = Uuid::from_bytes(entry.device_id()).value_or(Uuid{});
    header.device_time_us = entry.device_time_us();
    header.prev_hash = hash_from_bytes(entry.prev_hash()).value_or(Hash{});
    return header;
}

[[nodiscard]] std::optional<Unreadable> wrong_size(std::string_view field, std::string_view value,
                                                   std::size_t size) {
    if (value.size() == size) return std::nullopt;
    return Unreadable{std::string{field},
                      fmt::format("{} bytes, {} are needed", value.size(), size)};
}

}  // namespace

ReadEventEntry::ReadEventEntry(std::string bytes, const Hash& hash,
                               const v1::TournamentEntry& entry, event::Fact fact)
    : bytes_{std::make_shared<const std::string>(std::move(bytes))},
      hash_{hash},
      header_{header_of(entry)},
      author_{entry.author()},
      beside_{hash_from_bytes(entry.beside_hash())},
      fact_{std::move(fact)} {}

std::optional<Unreadable> limit_broken(const v1::TournamentEntry& entry) {
    if (auto why = wrong_size("tournament_id", entry.tournament_id(), Uuid::size)) return why;
    if (auto why = wrong_size("entry_id", entry.entry_id(), Uuid::size)) return why;
    if (auto why = wrong_size("device_id", entry.device_id(), Uuid::size)) return why;
    if (auto why = wrong_size("prev_hash", entry.prev_hash(), hash_bytes)) return why;
    if (!entry.beside_hash().empty())
        if (auto why = wrong_size("beside_hash", entry.beside_hash(), hash_bytes)) return why;
    if (entry.seq() < 1 || entry.seq() > event::most_facts)
        return Unreadable{"seq",
                          fmt::format("{} is not within 1 to {}", entry.seq(), event::most_facts)};
    if (entry.author().empty() || !fits(entry.author(), most_name_bytes))
        return Unreadable{"author",
                          fmt::format("must be a text of 1 to {} bytes", most_name_bytes)};
    return std::nullopt;
}

std::variant<ReadEventEntry, Unreadable> read_event_entry(std::string bytes) {
    v1::TournamentEntry entry;
    if (bytes.empty() || bytes.size() > most_event_entry_bytes ||
        !entry.ParseFromArray(bytes.data(), static_cast<int>(bytes.size())))
        return Unreadable{{}, "the bytes are no entry of a tournament"};
    if (auto broken = limit_broken(entry)) return std::move(*broken);
    auto fact = from_proto(entry.fact());
    if (auto* why = std::get_if<Unreadable>(&fact)) return std::move(*why);
    const Hash hash = sha256(bytes);
    return ReadEventEntry{std::move(bytes), hash, entry, std::get<event::Fact>(std::move(fact))};
}

std::variant<ReadEventEntry, Unreadable> seal_event(v1::TournamentEntry entry, const Head& head,
                                                    Hasher& hasher) {
    entry.set_seq(head.seq + 1);
    entry.set_prev_hash(to_bytes(head.hash));
    if (auto broken = limit_broken(entry)) return std::move(*broken);
    auto fact = from_proto(entry.fact());
    if (auto* why = std::get_if<Unreadable>(&fact)) return std::move(*why);
    std::string bytes;
    if (!entry.SerializeToString(&bytes)) return Unreadable{{}, "the entry cannot be serialized"};
    if (bytes.size() > most_event_entry_bytes)
        return Unreadable{{},
                          fmt::format("the entry has {} bytes, at most {} are allowed",
                                      bytes.size(), most_event_entry_bytes)};
    const Hash hash = hasher.of(bytes);
    return ReadEventEntry{std::move(bytes), hash, entry, std::get<event::Fact>(std::move(fact))};
}

Hash beside_hash(const v1::BesideWords& words) {
    return sha256(words.salt() + words.text());
}

std::optional<Unreadable> beside_broken(const ReadEventEntry& entry,
                                        const v1::TournamentEntryBytes& kept) {
    if (!kept.has_beside()) return std::nullopt;
    const v1::BesideWords& words = kept.beside();
    if (auto why = wrong_size("beside.salt", words.salt(), salt_bytes)) return why;
    if (!fits(words.text(), event::most_reason_bytes))
        return Unreadable{"beside.text", fmt::format("must be a text of up to {} bytes",
                                                     event::most_reason_bytes)};
    if (entry.beside() != beside_hash(words))
        return Unreadable{"beside", "these are not the words that the entry was sealed with"};
    return std::nullopt;
}

}  // namespace courthand::wire
