#include "wire/read_entry.h"

#include <fmt/format.h>

#include <utility>

#include "wire/fact_convert.h"
#include "wire/work_done.h"

namespace courthand::wire {

EntryHeader header_of(const v1::Entry& entry) {
    EntryHeader header;
    header.match_id = Uuid::from_bytes(entry.match_id()).value_or(Uuid{});
    header.epoch = entry.epoch();
    header.seq = entry.seq();
    header.entry_id = Uuid::from_bytes(entry.entry_id()).value_or(Uuid{});
    header.device_id = Uuid::from_bytes(entry.device_id()).value_or(Uuid{});
    header.device_time_us = entry.device_time_us();
    header.prev_hash = hash_from_bytes(entry.prev_hash()).value_or(Hash{});
    return header;
}

namespace {

std::optional<v1::FactText> take_text(v1::Entry& entry) {
    v1::Fact* fact = mutable_fact_of(entry);
    if (fact == nullptr || !fact->has_text()) return std::nullopt;
    return std::move(*fact->mutable_text());
}

}  // namespace

ReadEntry::ReadEntry(std::string bytes, const Hash& hash, v1::Entry&& entry, const Record& record)
    : bytes_{std::make_shared<const std::string>(std::move(bytes))},
      hash_{hash},
      header_{header_of(entry)},
      record_{record},
      text_{take_text(entry)} {}

std::optional<v1::Entry> parse_entry(std::string_view bytes) {
    count_parse();
    v1::Entry entry;
    if (bytes.empty() || bytes.size() > most_entry_bytes) return std::nullopt;
    if (!entry.ParseFromArray(bytes.data(), static_cast<int>(bytes.size()))) return std::nullopt;
    return entry;
}

std::variant<ReadEntry, Unreadable> read_entry(std::string bytes) {
    std::optional<v1::Entry> entry = parse_entry(bytes);
    if (!entry) return Unreadable{{}, "the bytes are no entry"};
    std::variant<Record, Unreadable> record = from_proto(*entry);
    if (auto* why = std::get_if<Unreadable>(&record)) return std::move(*why);
    const Hash hash = sha256(bytes);
    return ReadEntry{std::move(bytes), hash, std::move(*entry), std::get<Record>(record)};
}

std::variant<ReadEntry, Unreadable> read_arriving_entry(std::string bytes) {
    std::optional<v1::Entry> entry = parse_entry(bytes);
    if (!entry) return Unreadable{{}, "the bytes are no entry"};
    if (auto broken = limit_broken(*entry)) return std::move(*broken);
    std::variant<Record, Unreadable> record = from_proto(*entry);
    if (auto* why = std::get_if<Unreadable>(&record)) return std::move(*why);
    const Hash hash = sha256(bytes);
    return ReadEntry{std::move(bytes), hash, std::move(*entry), std::get<Record>(record)};
}

std::variant<ReadEntry, Unreadable> seal(v1::Entry entry, const Head& head, Hasher& hasher) {
    entry.set_seq(head.seq + 1);
    entry.set_prev_hash(to_bytes(head.hash));
    if (auto broken = limit_broken(entry)) return std::move(*broken);
    std::variant<Record, Unreadable> record = from_proto(entry);
    if (auto* why = std::get_if<Unreadable>(&record)) return std::move(*why);
    std::string bytes;
    if (!entry.SerializeToString(&bytes)) return Unreadable{{}, "the entry cannot be serialized"};
    if (bytes.size() > most_entry_bytes)
        return Unreadable{{},
                          fmt::format("the entry has {} bytes, at most {} are allowed; shorten "
                                      "its texts",
                                      bytes.size(), most_entry_bytes)};
    const Hash hash = hasher.of(bytes);
    return ReadEntry{std::move(bytes), hash, std::move(entry), std::get<Record>(record)};
}

Head genesis(const Uuid& match_id, Hasher& hasher) {
    return {0, hasher.of(match_id.to_bytes())};
}

}  // namespace courthand::wire
