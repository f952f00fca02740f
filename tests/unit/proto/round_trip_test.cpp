// Every kind of fact survives the way core -> message -> bytes -> message -> core unchanged.
// The examples are checked against the number of alternatives of `Fact`, so that a new kind fails
// here until it has an example.
#include <gtest/gtest.h>

#include <set>

#include "every_fact.h"
#include "wire/fact_convert.h"

namespace courthand::wire {
namespace {

Record through_bytes(const Record& record) {
    v1::Entry written;
    to_proto(record, written);
    v1::Entry read;
    EXPECT_TRUE(read.ParseFromString(written.SerializeAsString()));
    std::variant<Record, Unreadable> result = from_proto(read);
    if (const auto* error = std::get_if<Unreadable>(&result)) {
        ADD_FAILURE() << error->text() << "\n" << written.DebugString();
        return Strike{};
    }
    return std::get<Record>(result);
}

TEST(RoundTrip, ExamplesCoverEveryKind) {
    std::set<std::size_t> kinds;
    for (const Fact& fact : kit::every_fact()) kinds.insert(fact.index());
    EXPECT_EQ(kinds.size(), std::variant_size_v<Fact>);
}

TEST(RoundTrip, EveryMessageKindHasAnExample) {
    std::set<int> kinds;
    for (const Fact& fact : kit::every_fact()) {
        v1::Fact message;
        to_proto(fact, message);
        kinds.insert(message.kind_case());
    }
    const auto* oneof = v1::Fact::descriptor()->FindOneofByName("kind");
    ASSERT_NE(oneof, nullptr);
    EXPECT_EQ(static_cast<int>(kinds.size()), oneof->field_count());
    EXPECT_EQ(kinds.count(v1::Fact::KIND_NOT_SET), 0u);
}

TEST(RoundTrip, Facts) {
    for (const Fact& fact : kit::every_fact()) {
        const Record record{fact};
        EXPECT_EQ(through_bytes(record), record) << "kind " << fact.index();
    }
}

TEST(RoundTrip, Corrections) {
    for (const Fact& fact : kit::every_fact()) {
        const Record inserted{Insert{0, fact}};
        const Record amended{Amend{12, fact}};
        EXPECT_EQ(through_bytes(inserted), inserted);
        EXPECT_EQ(through_bytes(amended), amended);
    }
    const Record struck{Strike{4'000'000'000}};
    EXPECT_EQ(through_bytes(struck), struck);
}

TEST(RoundTrip, ANewBodyReplacesTheOldOne) {
    v1::Entry entry;
    entry.set_seq(4);
    to_proto(Record{Strike{1}}, entry);
    to_proto(Record{Fact{Whistle{}}}, entry);
    EXPECT_FALSE(entry.has_strike());
    EXPECT_EQ(entry.seq(), 4u);
}

TEST(RoundTrip, FormatAlone) {
    v1::MatchFormat message;
    to_proto(kit::odd_format(), message);
    const auto read = from_proto(message);
    ASSERT_TRUE(std::holds_alternative<MatchFormat>(read));
    EXPECT_EQ(std::get<MatchFormat>(read), kit::odd_format());
}

}  // namespace
}  // namespace courthand::wire
