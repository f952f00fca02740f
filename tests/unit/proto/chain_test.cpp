// Tampering with a record is found, and the place is named.
#include <gtest/gtest.h>

#include "entry_kit.h"

namespace courthand::wire {
namespace {

using Kind = ChainFault::Kind;

TEST(Chain, AnUntouchedRecordHolds) {
    const auto entries = kit::five_entries();
    ASSERT_EQ(entries.size(), 5u);
    EXPECT_FALSE(verify(kit::match_id(), entries).has_value());
    EXPECT_FALSE(verify(kit::match_id(), {}).has_value());
}

TEST(Chain, TheFirstEntryFollowsTheHashOfTheMatchId) {
    const auto entries = kit::five_entries();
    v1::Entry first;
    ASSERT_TRUE(first.ParseFromString(entries[0]));
    EXPECT_EQ(first.prev_hash(), to_bytes(Hasher{}.of(kit::match_id().to_bytes())));
    EXPECT_EQ(first.seq(), 1u);
}

// Every single bit of every entry but the last is protected by the entry after it; the last by the
// head hash that is printed on the signed record.
TEST(Chain, EveryChangedBitIsFound) {
    const auto good = kit::five_entries();
    Chain whole{kit::match_id()};
    for (const auto& bytes : good) ASSERT_FALSE(whole.append(bytes).has_value());
    for (std::size_t entry = 0; entry < good.size(); ++entry) {
        for (std::size_t bit = 0; bit < good[entry].size() * 8; ++bit) {
            auto bad = good;
            bad[entry][bit / 8] = static_cast<char>(bad[entry][bit / 8] ^ (1 << bit % 8));
            Chain chain{kit::match_id()};
            bool found = false;
            for (const auto& bytes : bad) {
                if (!chain.append(bytes)) continue;
                found = true;
                break;
            }
            EXPECT_TRUE(found || chain.head() != whole.head())
                << "entry " << entry + 1 << " bit " << bit;
            if (entry + 1 < good.size()) {
                EXPECT_TRUE(found) << "entry " << entry + 1 << " bit " << bit;
            }
        }
    }
}

TEST(Chain, AChangedTimeIsBlamedOnTheNextEntry) {
    auto entries = kit::five_entries();
    v1::Entry second;
    ASSERT_TRUE(second.ParseFromString(entries[1]));
    second.set_device_time_us(second.device_time_us() + 1);
    entries[1] = second.SerializeAsString();
    const auto fault = verify(kit::match_id(), entries);
    ASSERT_TRUE(fault.has_value());
    EXPECT_EQ(fault->kind, Kind::other_parent);
    EXPECT_EQ(fault->index, 2u);
    EXPECT_EQ(fault->seq, 3u);
    EXPECT_NE(fault->message.find("entry 2"), std::string::npos) << fault->message;
}

TEST(Chain, TwoEntriesInTheOtherOrder) {
    auto entries = kit::five_entries();
    std::swap(entries[1], entries[2]);
    const auto fault = verify(kit::match_id(), entries);
    ASSERT_TRUE(fault.has_value());
    EXPECT_EQ(fault->kind, Kind::gap);
    EXPECT_EQ(fault->index, 1u);
    EXPECT_EQ(fault->seq, 3u);
}

TEST(Chain, AnEntryLeftOut) {
    for (std::size_t gone = 0; gone < 4; ++gone) {
        auto entries = kit::five_entries();
        entries.erase(entries.begin() + static_cast<std::ptrdiff_t>(gone));
        const auto fault = verify(kit::match_id(), entries);
        ASSERT_TRUE(fault.has_value());
        EXPECT_EQ(fault->kind, Kind::gap);
        EXPECT_EQ(fault->index, gone);
        EXPECT_EQ(fault->seq, gone + 2);
    }
}

TEST(Chain, AnEntryTwice) {
    auto entries = kit::five_entries();
    entries.insert(entries.begin() + 2, entries[1]);
    const auto fault = verify(kit::match_id(), entries);
    ASSERT_TRUE(fault.has_value());
    EXPECT_EQ(fault->kind, Kind::gap);
}

TEST(Chain, AnotherMatch) {
    const auto fault = verify(kit::id(8), kit::five_entries());
    ASSERT_TRUE(fault.has_value());
    EXPECT_EQ(fault->kind, Kind::other_match);
    EXPECT_EQ(fault->index, 0u);
}

TEST(Chain, NoEntryAtAll) {
    auto entries = kit::five_entries();
    entries[3] = "\xff\xff no entry";
    auto fault = verify(kit::match_id(), entries);
    ASSERT_TRUE(fault.has_value());
    EXPECT_EQ(fault->kind, Kind::unreadable);
    EXPECT_EQ(fault->index, 3u);
    EXPECT_EQ(fault->seq, 0u);
    entries[3].clear();
    EXPECT_EQ(verify(kit::match_id(), entries)->kind, Kind::unreadable);
    entries[3].assign(most_entry_bytes + 1, '\0');
    EXPECT_EQ(verify(kit::match_id(), entries)->kind, Kind::unreadable);
}

TEST(Chain, TheWriterEpochNeverGoesBack) {
    Hasher hasher;
    Head head = genesis(kit::match_id(), hasher);
    std::vector<std::string> entries;
    for (const std::uint32_t epoch : {1u, 3u, 3u, 2u}) {
        v1::Entry entry = kit::blank_entry(static_cast<std::uint8_t>(head.seq + 1), epoch);
        to_proto(Record{Fact{Whistle{}}}, entry);
        auto result = std::get<ReadEntry>(seal(entry, head, hasher));
        head = result.head();
        entries.push_back(result.bytes());
    }
    const auto fault = verify(kit::match_id(), entries);
    ASSERT_TRUE(fault.has_value());
    EXPECT_EQ(fault->kind, Kind::epoch_back);
    EXPECT_EQ(fault->seq, 4u);
}

TEST(Chain, AFaultMovesNothingAndTheChainGoesOn) {
    const auto entries = kit::five_entries();
    Chain chain{kit::match_id()};
    ASSERT_FALSE(chain.append(entries[0]).has_value());
    const Head before = chain.head();
    EXPECT_TRUE(chain.append(entries[2]).has_value());
    EXPECT_EQ(chain.head(), before);
    EXPECT_FALSE(chain.append(entries[1]).has_value());
    EXPECT_EQ(chain.head().seq, 2u);
}

TEST(Chain, GoesOnFromAKnownHead) {
    const auto entries = kit::five_entries();
    Chain first{kit::match_id()};
    for (int i = 0; i < 3; ++i)
        ASSERT_FALSE(first.append(entries[static_cast<std::size_t>(i)]).has_value());
    Chain second{kit::match_id(), first.head(), first.epoch()};
    EXPECT_FALSE(second.append(entries[3]).has_value());
    EXPECT_FALSE(second.append(entries[4]).has_value());
    EXPECT_EQ(second.head().seq, 5u);
}

TEST(Seal, NumbersAndParentsAreGivenHere) {
    Hasher hasher;
    const Head head = genesis(kit::match_id(), hasher);
    v1::Entry entry = kit::blank_entry(1);
    entry.set_seq(77);
    entry.set_prev_hash("nonsense");
    to_proto(Record{Fact{Whistle{}}}, entry);
    const auto result = seal(entry, head, hasher);
    ASSERT_TRUE(std::holds_alternative<ReadEntry>(result));
    EXPECT_EQ(std::get<ReadEntry>(result).head().seq, 1u);
    EXPECT_FALSE(
        verify(kit::match_id(), std::vector{std::get<ReadEntry>(result).bytes()}).has_value());
}

TEST(Seal, RefusesWhatNobodyCouldRead) {
    Hasher hasher;
    const Head head = genesis(kit::match_id(), hasher);
    v1::Entry entry = kit::blank_entry(1);
    auto result = seal(entry, head, hasher);
    ASSERT_TRUE(std::holds_alternative<Unreadable>(result));
    EXPECT_EQ(std::get<Unreadable>(result).field, "body");
    to_proto(Record{Fact{Whistle{}}}, entry);
    entry.clear_entry_id();
    result = seal(entry, head, hasher);
    ASSERT_TRUE(std::holds_alternative<Unreadable>(result));
    EXPECT_EQ(std::get<Unreadable>(result).field, "entry_id");
}

}  // namespace
}  // namespace courthand::wire
