// What the core cannot represent is refused with the field that is to blame.
#include <google/protobuf/stubs/logging.h>
#include <google/protobuf/text_format.h>
#include <gtest/gtest.h>

#include <random>

#include "every_fact.h"
#include "wire/fact_convert.h"

namespace courthand::wire {
namespace {

struct Row {
    const char* entry;    // protobuf text form
    const char* field;    // expected place
    const char* message;  // expected part of the message
};

TEST(Unreadable, NamesTheField) {
    const Row rows[] = {
        {"", "body", "no fact"},
        {"fact {}", "fact.kind", "no fact is set"},
        {"fact { rally_won {} }", "fact.rally_won.team", "0 names neither"},
        {"fact { rally_won { team: 7 } }", "fact.rally_won.team", "7 names neither"},
        {"fact { libero_replacement { team: 1 in: 107 out: 3 } }", "fact.libero_replacement.in",
         "107 is not a jersey number (0 to 99)"},
        {"fact { libero_replacement { team: 1 in: 7 } }", "fact.libero_replacement.out", "missing"},
        {"fact { libero_replacement { team: 1 in: 4294967295 out: 3 } }",
         "fact.libero_replacement.in", "4294967295"},
        {"fact { serve { server: 4 } }", "fact.serve.team", "neither"},
        {"fact { serve { team: 9 } }", "fact.serve.team", "neither"},
        {"fact { set_started { number: 0 } }", "fact.set_started.number", "1 to 5"},
        {"fact { set_started { number: 257 } }", "fact.set_started.number", "257"},
        {"fact { substitution { team: 2 } }", "fact.substitution.pairs", "0 values, 1 to 6"},
        {"fact { substitution { team: 2 pairs { in: 3 } } }", "fact.substitution.pairs.out",
         "missing"},
        {"fact { line_up { team: 1 order { numbers: [1, 2, 3, 4, 5] } liberos {} liberos {} } }",
         "fact.line_up.order", "5 values"},
        {"fact { line_up { team: 1 order { numbers: [1, 2, 3, 4, 5, -2] } } }",
         "fact.line_up.order", "-2 is not"},
        {"fact { line_up { team: 1 order { numbers: [1, 2, 3, 4, 5, 6] } liberos { mark: 2 } } }",
         "fact.line_up.liberos", "1 values"},
        {"fact { libero_box_settled { team: 1 box: 0 entry { mark: 2 } } }",
         "fact.libero_box_settled.box", "1 to 2"},
        {"fact { libero_box_settled { team: 1 box: 1 entry { mark: 2 number: 4 } } }",
         "fact.libero_box_settled.entry.number", "holds no number"},
        {"fact { libero_box_settled { team: 1 box: 1 entry { mark: 3 } } }",
         "fact.libero_box_settled.entry.number", "missing"},
        {"fact { libero_box_settled { team: 1 box: 1 entry { mark: 9 } } }",
         "fact.libero_box_settled.entry.mark", "9 is not known"},
        {"fact { delay { team: 1 sanction: 3 } }", "fact.delay.sanction", "warning or a penalty"},
        {"fact { misconduct { team: 1 } }", "fact.misconduct.sanction", "is not set"},
        {"fact { libero_unable { team: 1 libero: 2 cause: 44 } }", "fact.libero_unable.cause",
         "44 is not known"},
        {"fact { ruling { decision: 1 team: 1 reason: 'no-such-thing' } }", "fact.ruling.reason",
         "no-such-thing"},
        {"fact { ruling { team: 1 reason: 'wrong-server' } }", "fact.ruling.decision", "not set"},
        {"fact { incomplete { team: 1 } }", "fact.incomplete.scope", "not set"},
        {"fact { match_opened {} }", "fact.match_opened.format", "not set"},
        {"fact { match_opened { format { sets: 6 points: 25 deciding_points: 15 lead: 2 } } }",
         "fact.match_opened.format.sets", "1 to 5"},
        {"fact { match_opened { format { sets: 4 points: 25 deciding_points: 15 lead: 2 } } }",
         "fact.match_opened.format.sets", "even number"},
        {"fact { score_correction { score { a: 256 } } }", "fact.score_correction.score.a", "256"},
        {"fact { score_correction {} }", "fact.score_correction.score", "not set"},
        {"fact { note {} }", "fact.note.kind", "not set"},
        {"strike {}", "strike.target", "names no entry"},
        {"amend { fact { whistle {} } }", "amend.target", "names no entry"},
        {"amend { target: 3 }", "amend.fact.kind", "no fact"},
        {"insert { after: 3 fact { time_out {} } }", "insert.fact.time_out.team", "neither"},
    };
    for (const Row& row : rows) {
        v1::Entry entry;
        ASSERT_TRUE(google::protobuf::TextFormat::ParseFromString(row.entry, &entry)) << row.entry;
        const auto result = from_proto(entry);
        const auto* error = std::get_if<Unreadable>(&result);
        ASSERT_NE(error, nullptr) << row.entry;
        EXPECT_EQ(error->field, row.field) << row.entry;
        EXPECT_NE(error->message.find(row.message), std::string::npos)
            << row.entry << " said: " << error->message;
    }
}

TEST(Unreadable, TooManyPlayersAndPairs) {
    v1::Entry entry;
    to_proto(Record{Fact{kit::full_roster(Team::A)}}, entry);
    entry.mutable_fact()->mutable_team_roster()->add_players(1);
    ASSERT_TRUE(std::holds_alternative<Unreadable>(from_proto(entry)));
    EXPECT_EQ(std::get<Unreadable>(from_proto(entry)).field, "fact.team_roster.players");
    to_proto(Record{Fact{kit::six_pairs(Team::A)}}, entry);
    *entry.mutable_fact()->mutable_substitution()->add_pairs() =
        entry.fact().substitution().pairs(0);
    ASSERT_TRUE(std::holds_alternative<Unreadable>(from_proto(entry)));
    EXPECT_EQ(std::get<Unreadable>(from_proto(entry)).field, "fact.substitution.pairs");
}

// Goal: no bytes whatever make the reader fail in another way than by saying so, and what it reads
// it can write again. Method: change bytes of good entries under a fixed seed.
TEST(Unreadable, ChangedBytesAreReadOrRefused) {
    const google::protobuf::LogSilencer quiet;  // it reports each text that is not UTF-8
    std::mt19937 random{20260214};
    const std::vector<Fact> facts = kit::every_fact();
    int read_again = 0;
    for (int round = 0; round < 60'000; ++round) {
        v1::Entry entry;
        to_proto(Record{facts[random() % facts.size()]}, entry);
        std::string bytes = entry.SerializeAsString();
        for (int change = 0; change < 2; ++change)
            bytes[random() % bytes.size()] = static_cast<char>(random() & 0xff);
        v1::Entry changed;
        if (!changed.ParseFromString(bytes)) continue;
        const auto record = from_proto(changed);
        if (!std::holds_alternative<Record>(record)) continue;
        v1::Entry again;
        to_proto(std::get<Record>(record), again);
        const auto second = from_proto(again);
        ASSERT_TRUE(std::holds_alternative<Record>(second)) << changed.DebugString();
        ASSERT_EQ(std::get<Record>(second), std::get<Record>(record));
        ++read_again;
    }
    EXPECT_GT(read_again, 100) << "the changes were too rough to test anything";
}

}  // namespace
}  // namespace courthand::wire
