// An entry that was read once says all that its bytes say, and nobody parses or hashes them again.
#include <gtest/gtest.h>

#include "courthand/rules/profile.h"
#include "entry_kit.h"
#include "wire/fact_convert.h"
#include "wire/fold_record.h"
#include "wire/read_entry.h"
#include "wire/work_done.h"

namespace courthand::wire {
namespace {

/// What is done while `act` runs.
template <class Act>
WorkDone work_of(Act act) {
    const WorkDone before = work_done();
    act();
    const WorkDone after = work_done();
    return {after.parses - before.parses, after.conversions - before.conversions,
            after.hashes - before.hashes};
}

/// A remark as the first entry of the match.
ReadEntry sealed_remark() {
    Hasher hasher;
    v1::Entry entry = kit::blank_entry(5, 3);
    to_proto(Record{Fact{Note{Note::Kind::remark}}}, entry);
    entry.mutable_fact()->mutable_text()->set_remark("wet floor");
    auto sealed = seal(entry, genesis(kit::match_id(), hasher), hasher);
    return std::get<ReadEntry>(std::move(sealed));
}

TEST(ReadEntry, SaysWhatWasWritten) {
    const ReadEntry entry = sealed_remark();
    EXPECT_EQ(entry.header().match_id, kit::match_id());
    EXPECT_EQ(entry.header().epoch, 3u);
    EXPECT_EQ(entry.header().seq, 1u);
    EXPECT_EQ(entry.header().entry_id, kit::id(5));
    EXPECT_EQ(entry.header().device_id, kit::id(99));
    EXPECT_EQ(entry.header().device_time_us, 1'700'000'000'000'005);
    EXPECT_EQ(entry.header().prev_hash, sha256(kit::match_id().to_bytes()));
    EXPECT_EQ(entry.record(), Record{Fact{Note{Note::Kind::remark}}});
    EXPECT_EQ(entry.text().remark(), "wet floor");
    EXPECT_EQ(entry.hash(), sha256(entry.bytes()));
    EXPECT_EQ(entry.head(), (Head{1, entry.hash()}));
}

TEST(ReadEntry, IsTheSameFromItsBytes) {
    const ReadEntry written = sealed_remark();
    const auto result = read_entry(written.bytes());
    ASSERT_TRUE(std::holds_alternative<ReadEntry>(result)) << std::get<Unreadable>(result).text();
    const ReadEntry& read = std::get<ReadEntry>(result);
    EXPECT_EQ(read.bytes(), written.bytes());
    EXPECT_EQ(read.hash(), written.hash());
    EXPECT_EQ(read.head(), written.head());
    EXPECT_EQ(read.header().entry_id, written.header().entry_id);
    EXPECT_EQ(read.header().prev_hash, written.header().prev_hash);
    EXPECT_EQ(read.record(), written.record());
    EXPECT_EQ(read.text().remark(), written.text().remark());
}

TEST(ReadEntry, RefusesWhatIsNoEntryOrNoFact) {
    const auto reason = [](std::string bytes) {
        const auto result = read_entry(std::move(bytes));
        const auto* why = std::get_if<Unreadable>(&result);
        return why == nullptr ? std::string{} : why->text();
    };
    EXPECT_EQ(reason(""), "the bytes are no entry");
    EXPECT_EQ(reason(std::string(most_entry_bytes + 1, '\0')), "the bytes are no entry");
    v1::Entry empty = kit::blank_entry(1);
    EXPECT_NE(reason(empty.SerializeAsString()).find("body: no fact"), std::string::npos);
}

TEST(ReadEntry, WhatArrivesIsHeldToTheLimits) {
    v1::Entry entry = kit::blank_entry(1);
    to_proto(Record{Fact{Whistle{}}}, entry);
    entry.set_seq(1);
    entry.set_prev_hash(std::string(hash_bytes, 'h'));
    ASSERT_TRUE(std::holds_alternative<ReadEntry>(read_arriving_entry(entry.SerializeAsString())));
    entry.set_entry_id("short");
    const std::string bytes = entry.SerializeAsString();
    const auto arriving = read_arriving_entry(bytes);
    ASSERT_TRUE(std::holds_alternative<Unreadable>(arriving));
    EXPECT_EQ(std::get<Unreadable>(arriving).field, "entry_id");
    // What is kept already is read all the same: it cannot be sent back.
    const auto kept = read_entry(bytes);
    ASSERT_TRUE(std::holds_alternative<ReadEntry>(kept));
    EXPECT_TRUE(std::get<ReadEntry>(kept).header().entry_id.none());
}

TEST(ReadEntry, IsParsedConvertedAndHashedOnce) {
    const std::string bytes = sealed_remark().bytes();
    const Rules& rules = find_profile("international-2025")->rules;
    RecordFold fold{kit::match_id(), rules};
    EXPECT_EQ(work_of([&] {
                  const auto read = read_entry(bytes);
                  ASSERT_FALSE(fold.add(std::get<ReadEntry>(read)).has_value());
              }),
              (WorkDone{1, 1, 1}));
    EXPECT_EQ(fold.last_device(), kit::id(99));
    RecordFold from_bytes{kit::match_id(), rules};
    EXPECT_EQ(work_of([&] { ASSERT_FALSE(from_bytes.add(bytes).has_value()); }),
              (WorkDone{1, 1, 1}));
    EXPECT_EQ(from_bytes.head(), fold.head());
}

TEST(ReadEntry, AWrittenOneIsNeverParsed) {
    EXPECT_EQ(work_of([] { static_cast<void>(sealed_remark()); }), (WorkDone{0, 1, 2}))
        << "one conversion to see that everybody can read it; a hash of the match id, one of it";
}

}  // namespace
}  // namespace courthand::wire
