// The record of a tournament on the wire: every kind both ways, its bytes, its chain.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <set>
#include <string>
#include <utility>

#include "courthand/event/fact_fields.h"
#include "entry_kit.h"
#include "tests/unit/event/draw_event.h"
#include "wire/chain.h"
#include "wire/event_convert.h"
#include "wire/event_entry.h"

namespace courthand::wire {
namespace {

using event::kind_count;
using event::testing::Dice;

v1::TournamentEntry blank_event_entry(std::uint8_t fill) {
    v1::TournamentEntry entry;
    entry.set_tournament_id(kit::match_id().to_bytes());
    entry.set_entry_id(kit::id(fill).to_bytes());
    entry.set_device_id(kit::id(99).to_bytes());
    entry.set_device_time_us(1'700'000'000'000'000 + fill);
    entry.set_author("desk 1");
    return entry;
}

v1::TournamentEntry entry_of(const event::Fact& fact, std::uint8_t fill = 1) {
    v1::TournamentEntry entry = blank_event_entry(fill);
    to_proto(fact, *entry.mutable_fact());
    return entry;
}

ReadEventEntry sealed(const event::Fact& fact, const Head& head, std::uint8_t fill = 1) {
    Hasher hasher;
    auto result = seal_event(entry_of(fact, fill), head, hasher);
    if (const auto* why = std::get_if<Unreadable>(&result)) ADD_FAILURE() << why->text();
    return std::get<ReadEventEntry>(std::move(result));
}

Head beginning() {
    Hasher hasher;
    return genesis(kit::match_id(), hasher);
}

std::string refusal(const v1::TournamentFact& fact) {
    const auto read = from_proto(fact);
    const auto* why = std::get_if<Unreadable>(&read);
    return why == nullptr ? std::string{} : why->text();
}

TEST(EventWire, EveryKindComesBackEqual) {
    Dice dice{1895};
    for (int round = 0; round < 200; ++round)
        for (std::size_t kind = 0; kind < kind_count; ++kind) {
            const event::Fact fact = dice.draw_fact(kind);
            v1::TournamentFact message;
            to_proto(fact, message);
            const auto read = from_proto(message);
            const auto* why = std::get_if<Unreadable>(&read);
            ASSERT_EQ(why, nullptr) << why->text();
            ASSERT_TRUE(std::get<event::Fact>(read) == fact) << message.DebugString();
        }
}

/// A row and its message have the same fields, and a choice the same values.
TEST(EventWire, EveryFieldOfAMessageStandsInItsRow) {
    const auto* facts = v1::TournamentFact::descriptor();
    EXPECT_EQ(static_cast<std::size_t>(facts->field_count()), kind_count);
    event::for_each_kind([&](auto kind) {
        using Kind = typename decltype(kind)::type;
        const auto* field = facts->FindFieldByName(std::string{event::described<Kind>.name});
        ASSERT_NE(field, nullptr) << event::described<Kind>.name;
        const auto* message = field->message_type();
        EXPECT_EQ(static_cast<std::size_t>(message->field_count()), event::field_count<Kind>)
            << message->full_name();
        event::for_each_field<Kind>([&](const auto& row) {
            const auto* found = message->FindFieldByName(std::string{row.name});
            ASSERT_NE(found, nullptr) << message->full_name() << '.' << row.name;
            using Value = typename std::decay_t<decltype(row)>::Value;
            if constexpr (Choice<Value>) {
                EXPECT_EQ(static_cast<std::size_t>(found->enum_type()->value_count()),
                          choice_count<Value> + 1)
                    << found->full_name();
            }
        });
    });
}

TEST(EventWire, WhatIsOutOfBoundsIsRefusedByName) {
    v1::TournamentFact fact;
    EXPECT_NE(refusal(fact).find("fact.kind"), std::string::npos);
    fact.mutable_team_entered()->set_team("Mill Lane");
    EXPECT_EQ(refusal(fact), "fact.team_entered.division: is empty");
    fact.mutable_roster_frozen()->set_team("Mill Lane");
    fact.mutable_roster_frozen()->add_numbers(300);
    EXPECT_EQ(refusal(fact), "fact.roster_frozen.numbers: 300 is too large");
    fact.mutable_result_confirmed()->set_match("M1");
    EXPECT_EQ(refusal(fact), "fact.result_confirmed.from: is not set");
    fact.mutable_result_confirmed()->set_from(v1::RESULT_FROM_PAPER);
    EXPECT_EQ(refusal(fact), "fact.result_confirmed.sets: 0 items, 1 to 5 are allowed");
    fact.mutable_result_confirmed()->add_sets()->set_first(70'000);
    EXPECT_EQ(refusal(fact), "fact.result_confirmed.sets: 70000 is too large");
    fact.mutable_result_confirmed()->mutable_sets(0)->set_first(25);
    fact.mutable_result_confirmed()->set_head("short");
    EXPECT_EQ(refusal(fact), "fact.result_confirmed.head: 5 bytes, 32 are needed");
    auto& sides = *fact.mutable_sides_given();
    sides.set_match("M1");
    EXPECT_EQ(refusal(fact), "fact.sides_given.first: is not given");
    sides.mutable_first()->set_kind(v1::MatchSource::KIND_BETTER);
    sides.mutable_first()->add_two()->set_kind(v1::MatchSource::KIND_BETTER);
    sides.mutable_first()->mutable_two(0)->add_two()->set_kind(v1::MatchSource::KIND_BYE);
    EXPECT_EQ(refusal(fact), "fact.sides_given.first: compares a comparison");
}

TEST(EventWire, AnEntryIsTheSameFromItsBytes) {
    v1::TournamentEntry entry = entry_of(event::TeamWithdrawn{"Mill Lane"}, 5);
    v1::BesideWords words;
    words.set_salt(std::string(salt_bytes, 's'));
    words.set_text("the bus broke down");
    entry.set_beside_hash(to_bytes(beside_hash(words)));
    Hasher hasher;
    const auto result = seal_event(entry, beginning(), hasher);
    const auto& written = std::get<ReadEventEntry>(result);
    const auto again = read_event_entry(written.bytes());
    const auto& read = std::get<ReadEventEntry>(again);
    EXPECT_EQ(read.hash(), written.hash());
    EXPECT_EQ(read.head(), (Head{1, read.hash()}));
    EXPECT_EQ(read.header().entry_id, kit::id(5));
    EXPECT_EQ(read.header().device_id, kit::id(99));
    EXPECT_EQ(read.header().device_time_us, 1'700'000'000'000'005);
    EXPECT_EQ(read.author(), "desk 1");
    EXPECT_TRUE(read.fact() == event::Fact{event::TeamWithdrawn{"Mill Lane"}});

    v1::TournamentEntryBytes kept;
    kept.set_data(read.bytes());
    EXPECT_FALSE(beside_broken(read, kept).has_value()) << "erased words break nothing";
    *kept.mutable_beside() = words;
    EXPECT_FALSE(beside_broken(read, kept).has_value());
    kept.mutable_beside()->set_text("something else");
    EXPECT_TRUE(beside_broken(read, kept).has_value());
    kept.mutable_beside()->set_salt("short");
    EXPECT_EQ(beside_broken(read, kept)->field, "beside.salt");
}

TEST(EventWire, TheChainOfAMatchWalksAlong) {
    Chain chain{kit::match_id()};
    Head head = chain.head();
    EXPECT_EQ(head, beginning());
    Dice dice{7};
    std::vector<ReadEventEntry> entries;
    for (std::uint8_t i = 1; i <= 20; ++i) {
        entries.push_back(sealed(dice.draw_fact(i), head, i));
        head = entries.back().head();
    }
    for (const ReadEventEntry& entry : entries)
        ASSERT_FALSE(chain.append(entry.header(), entry.hash()).has_value());
    EXPECT_EQ(chain.head(), head);
    Chain skipping{kit::match_id()};
    EXPECT_EQ(skipping.append(entries[1].header(), entries[1].hash())->kind, ChainFault::Kind::gap);
    Chain other{kit::id(8)};
    EXPECT_EQ(other.append(entries[0].header(), entries[0].hash())->kind,
              ChainFault::Kind::other_match);
}

TEST(EventWire, RefusesWhatIsNoEntry) {
    const auto field = [](const v1::TournamentEntry& entry) {
        const auto read = read_event_entry(entry.SerializeAsString());
        const auto* why = std::get_if<Unreadable>(&read);
        return why == nullptr ? std::string{"none"} : why->field;
    };
    v1::TournamentEntry good = entry_of(event::PlanPublished{1});
    good.set_seq(1);
    good.set_prev_hash(std::string(hash_bytes, 'h'));
    EXPECT_EQ(field(good), "none");
    const auto spoilt = [&](auto spoil) {
        v1::TournamentEntry entry = good;
        spoil(entry);
        return field(entry);
    };
    EXPECT_EQ(spoilt([](auto& e) { e.set_tournament_id("x"); }), "tournament_id");
    EXPECT_EQ(spoilt([](auto& e) { e.clear_entry_id(); }), "entry_id");
    EXPECT_EQ(spoilt([](auto& e) { e.clear_device_id(); }), "device_id");
    EXPECT_EQ(spoilt([](auto& e) { e.clear_prev_hash(); }), "prev_hash");
    EXPECT_EQ(spoilt([](auto& e) { e.set_beside_hash("x"); }), "beside_hash");
    EXPECT_EQ(spoilt([](auto& e) { e.clear_seq(); }), "seq");
    EXPECT_EQ(spoilt([](auto& e) { e.set_seq(event::most_facts + 1); }), "seq");
    EXPECT_EQ(spoilt([](auto& e) { e.clear_author(); }), "author");
    EXPECT_EQ(spoilt([](auto& e) { e.set_author(std::string(65, 'x')); }), "author");
    EXPECT_EQ(spoilt([](auto& e) { e.clear_fact(); }), "fact.kind");
    const auto large = read_event_entry(std::string(most_event_entry_bytes + 1, '\0'));
    EXPECT_TRUE(std::holds_alternative<Unreadable>(large));
}

/// The largest fact of the bounds goes into an entry.
TEST(EventWire, TheLargestFactFits) {
    event::Source one{event::Source::Kind::team, std::string(event::most_name_bytes, 'x'), 0, {}};
    event::BracketMade bracket;
    bracket.division = bracket.prefix = std::string(event::most_word_bytes, 'x');
    bracket.pools.assign(event::most_listed, bracket.division);
    bracket.entrants.assign(event::most_listed, {event::Source::Kind::better, "", 0, {one, one}});
    ASSERT_FALSE(event::out_of_bounds(event::Fact{bracket}).has_value());
    EXPECT_GT(sealed(bracket, beginning()).bytes().size(), 9'000u);
}

std::string hex(const std::string& bytes) {
    std::string out;
    for (const char c : bytes) {
        constexpr std::string_view digits = "0123456789abcdef";
        out += digits[static_cast<unsigned char>(c) >> 4U];
        out += digits[static_cast<unsigned char>(c) & 15U];
    }
    return out;
}

std::string unhex(const std::string& digits) {
    std::string out;
    for (std::size_t i = 0; i + 1 < digits.size(); i += 2)
        out += static_cast<char>(std::stoi(digits.substr(i, 2), nullptr, 16));
    return out;
}

/// Bytes that were kept are read for ever, and a fact is written as it always was: a kind that got
/// a field since has a line from before and one from after. The list is written anew with
/// COURTHAND_WRITE_EVENT_GOLDEN=1, which keeps every line that is there.
TEST(EventWire, TheBytesOfEveryKindAreThoseOfTheList) {
    std::set<std::pair<std::string, std::string>> known;
    std::ifstream in{COURTHAND_EVENT_GOLDEN};
    for (std::string name, bytes; in >> name >> bytes;) known.emplace(name, bytes);
    std::set<std::pair<std::string, std::string>> now;
    event::for_each_kind([&](auto kind) {
        using Kind = typename decltype(kind)::type;
        Dice dice{11};
        now.emplace(event::described<Kind>.name,
                    hex(sealed(dice.draw_kind<Kind>(), beginning()).bytes()));
    });
    const char* wanted = std::getenv("COURTHAND_WRITE_EVENT_GOLDEN");
    if (wanted != nullptr && std::string{wanted} == "1") {
        now.merge(known);
        std::ofstream out{COURTHAND_EVENT_GOLDEN};
        for (const auto& [name, bytes] : now) out << name << ' ' << bytes << '\n';
        return;
    }
    for (const auto& line : now)
        EXPECT_TRUE(known.contains(line)) << line.first << ": write the list again";
    for (const auto& [name, bytes] : known) {
        const auto read = read_event_entry(unhex(bytes));
        const auto* entry = std::get_if<ReadEventEntry>(&read);
        ASSERT_NE(entry, nullptr) << name << ": " << bytes;
        EXPECT_EQ(hex(sealed(entry->fact(), beginning()).bytes()), bytes) << name;
    }
}

}  // namespace
}  // namespace courthand::wire
