// Entries and records for the tests of the wire library.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "courthand/match/entry.h"
#include "wire/chain.h"
#include "wire/fact_convert.h"
#include "wire/read_entry.h"

namespace courthand::wire::kit {

/// An id that says nothing: sixteen bytes `fill`.
inline Uuid id(std::uint8_t fill) {
    std::array<std::uint8_t, Uuid::size> bytes{};
    bytes.fill(fill);
    return Uuid{bytes};
}

inline Uuid match_id() {
    return id(7);
}

/// An entry with everything but its body, number and parent.
inline v1::Entry blank_entry(std::uint8_t fill, std::uint32_t epoch = 1) {
    v1::Entry entry;
    entry.set_match_id(match_id().to_bytes());
    entry.set_epoch(epoch);
    entry.set_entry_id(id(fill).to_bytes());
    entry.set_device_id(id(99).to_bytes());
    entry.set_device_time_us(1'700'000'000'000'000 + fill);
    return entry;
}

/// The bytes of a record: a match of `match_id()` with these lines.
inline std::vector<std::string> sealed(const std::vector<Record>& records) {
    Hasher hasher;
    Head head = genesis(match_id(), hasher);
    std::vector<std::string> entries;
    for (const Record& record : records) {
        v1::Entry entry = blank_entry(static_cast<std::uint8_t>(head.seq + 100));
        to_proto(record, entry);
        auto result = seal(entry, head, hasher);
        if (const auto* error = std::get_if<Unreadable>(&result)) {
            ADD_FAILURE() << error->text();
            return entries;
        }
        head = std::get<ReadEntry>(result).head();
        entries.push_back(std::get<ReadEntry>(result).bytes());
    }
    return entries;
}

/// Five short entries for tests that do not care what they say.
inline std::vector<std::string> five_entries() {
    return sealed(
        {Fact{SetStarted{1}}, Fact{Whistle{}}, Fact{Serve{}}, Fact{RallyWon{Team::A}}, Strike{4}});
}

/// Two entries that another device of epoch 1 wrote behind the third of these five.
inline std::vector<std::string> two_beside() {
    Hasher hasher;
    const std::string third = five_entries().at(2);
    Head head{3, sha256(third)};
    std::vector<std::string> entries;
    for (const Record& record : {Record{Fact{RallyWon{Team::B}}}, Record{Fact{Whistle{}}}}) {
        v1::Entry entry = blank_entry(static_cast<std::uint8_t>(head.seq + 200));
        entry.set_device_id(id(98).to_bytes());
        to_proto(record, entry);
        const auto result = seal(entry, head, hasher);
        head = std::get<ReadEntry>(result).head();
        entries.push_back(std::get<ReadEntry>(result).bytes());
    }
    return entries;
}

}  // namespace courthand::wire::kit
