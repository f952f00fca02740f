// Every bound: exactly at it passes, one more is refused with its place.
#include <gtest/gtest.h>

#include <functional>

#include "entry_kit.h"
#include "every_fact.h"
#include "wire/message_limits.h"

namespace courthand::wire {
namespace {

v1::Entry good_entry() {
    v1::Entry entry = kit::blank_entry(1);
    entry.set_seq(1);
    entry.set_prev_hash(std::string(hash_bytes, 'h'));
    to_proto(Record{Fact{Note{}}}, entry);
    return entry;
}

std::string broken_field(const std::function<void(v1::Entry&)>& change) {
    v1::Entry entry = good_entry();
    change(entry);
    const auto broken = limit_broken(entry);
    return broken ? broken->field : "";
}

std::string name_of(std::size_t bytes) {
    return std::string(bytes, 'x');
}

TEST(Limits, TextsOfAnEntry) {
    struct Row {
        const char* field;
        std::size_t most;
        std::function<void(v1::FactText&, std::string)> set;
    };
    const Row rows[] = {
        {"text.team_name", most_name_bytes, [](auto& t, auto s) { t.set_team_name(s); }},
        {"text.club", most_name_bytes, [](auto& t, auto s) { t.set_club(s); }},
        {"text.remark", most_remark_bytes, [](auto& t, auto s) { t.set_remark(s); }},
        {"text.cause_words", most_remark_bytes, [](auto& t, auto s) { t.set_cause_words(s); }},
        {"text.names.name", most_name_bytes, [](auto& t, auto s) { t.add_names()->set_name(s); }},
        {"text.signature.role", most_name_bytes,
         [](auto& t, auto s) { t.mutable_signature()->set_role(s); }},
        {"text.officials.role", most_name_bytes,
         [](auto& t, auto s) { t.add_officials()->set_role(s); }},
    };
    for (const Row& row : rows) {
        const auto with = [&](std::string text) {
            return broken_field([&](v1::Entry& entry) {
                row.set(*mutable_fact_of(entry)->mutable_text(), std::move(text));
            });
        };
        EXPECT_EQ(with(name_of(row.most)), "") << row.field;
        EXPECT_EQ(with(name_of(row.most + 1)), row.field);
        EXPECT_EQ(with("bell\a"), row.field);
        EXPECT_EQ(with("not utf-8 \xff"), row.field);
    }
}

TEST(Limits, IdsAndNumbersOfAnEntry) {
    EXPECT_EQ(broken_field([](v1::Entry&) {}), "");
    EXPECT_EQ(broken_field([](v1::Entry& e) { e.set_match_id("short"); }), "match_id");
    EXPECT_EQ(broken_field([](v1::Entry& e) { e.clear_entry_id(); }), "entry_id");
    EXPECT_EQ(broken_field([](v1::Entry& e) { e.set_device_id(name_of(17)); }), "device_id");
    EXPECT_EQ(broken_field([](v1::Entry& e) { e.set_epoch(0); }), "epoch");
    EXPECT_EQ(broken_field([](v1::Entry& e) { e.set_epoch(1'000'000); }), "");
    EXPECT_EQ(broken_field([](v1::Entry& e) { e.set_epoch(1'000'001); }), "epoch");
    EXPECT_EQ(broken_field([](v1::Entry& e) { e.set_seq(0); }), "seq");
    EXPECT_EQ(broken_field([](v1::Entry& e) { e.set_seq(most_entries); }), "");
    EXPECT_EQ(broken_field([](v1::Entry& e) { e.set_seq(most_entries + 1); }), "seq");
    EXPECT_EQ(broken_field([](v1::Entry& e) { e.set_prev_hash("short"); }), "prev_hash");
    EXPECT_EQ(
        broken_field([](v1::Entry& e) { e.mutable_fact()->mutable_text()->set_colour("navy"); }),
        "text.colour");
    EXPECT_EQ(broken_field([](v1::Entry& e) {
                  for (std::size_t i = 0; i <= most_players; ++i)
                      e.mutable_fact()->mutable_text()->add_names();
              }),
              "text.names");
    EXPECT_EQ(broken_field([](v1::Entry& e) {
                  for (std::size_t i = 0; i <= most_officials; ++i)
                      e.mutable_fact()->mutable_text()->add_officials()->set_role("scorer");
              }),
              "text.officials");
}

// The largest entry that breaks no other bound still fits: nobody is told to shorten a team list.
TEST(Limits, TheLargestTeamListFits) {
    v1::Entry entry = kit::blank_entry(1);
    to_proto(Record{Fact{kit::full_roster(Team::A)}}, entry);
    v1::FactText& text = *mutable_fact_of(entry)->mutable_text();
    text.set_team_name(name_of(most_name_bytes));
    text.set_club(name_of(most_name_bytes));
    text.set_colour("1f3a5f");
    text.set_remark(name_of(most_remark_bytes));
    for (std::size_t i = 0; i < most_players; ++i) {
        v1::RosterPlayer& player = *text.add_names();
        player.set_number(99);
        player.set_name(name_of(most_name_bytes));
        player.set_captain(true);
        player.set_libero(true);
    }
    Hasher hasher;
    const auto result = seal(entry, genesis(kit::match_id(), hasher), hasher);
    ASSERT_TRUE(std::holds_alternative<ReadEntry>(result)) << std::get<Unreadable>(result).text();
}

TEST(Limits, AnEntryThatIsTooLargeIsRefusedWithACure) {
    v1::Entry entry = good_entry();
    v1::FactText& text = *mutable_fact_of(entry)->mutable_text();
    text.set_remark(name_of(most_remark_bytes));
    text.set_cause_words(name_of(most_remark_bytes));
    for (std::size_t i = 0; i < most_players; ++i) text.add_names()->set_name(name_of(64));
    for (std::size_t i = 0; i < most_officials; ++i) {
        text.add_officials()->set_role(name_of(64));
        text.mutable_officials(static_cast<int>(i))->set_name(name_of(64));
    }
    Hasher hasher;
    const auto result = seal(entry, genesis(kit::match_id(), hasher), hasher);
    ASSERT_TRUE(std::holds_alternative<Unreadable>(result));
    EXPECT_NE(std::get<Unreadable>(result).message.find("shorten"), std::string::npos);
}

TEST(Limits, TextsOfAMatch) {
    v1::Match match;
    match.set_match_id(kit::match_id().to_bytes());
    match.mutable_first()->set_name("Harbour Lights");
    match.mutable_second()->set_name("Mill Lane");
    match.set_profile_id("international-2025");
    match.set_court(most_courts);
    EXPECT_FALSE(limit_broken(match).has_value());
    match.set_court(most_courts + 1);
    EXPECT_EQ(limit_broken(match)->field, "court");
    match.set_court(1);
    match.mutable_second()->clear_name();
    EXPECT_EQ(limit_broken(match)->field, "second.name");
}

TEST(Limits, Utf8) {
    EXPECT_TRUE(fits("Saltmarsh \xc3\xa9 \xe6\xb5\xb7 \xf0\x9f\x8f\x90\nnext line\t", 64));
    for (const char* bad :
         {"\x80", "\xc0\x80", "\xc3", "\xe0\x80\x80", "\xed\xa0\x80", "\xf0\x80\x80\x80",
          "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\x7f", "\x01", "\xe6\xb5"})
        EXPECT_FALSE(fits(bad, 64));
    EXPECT_FALSE(fits(std::string_view{"nul\0", 4}, 64));
    EXPECT_TRUE(fits("four", 4));
    EXPECT_FALSE(fits("fours", 4));
}

}  // namespace
}  // namespace courthand::wire
