// An event file to be checked and tampered with: a small cup with a draw by lot, a result from a
// table with its record, a decision with words, and a place for third.
#pragma once

#include <gtest/gtest.h>

#include <array>
#include <sstream>
#include <string>
#include <vector>

#include "courthand/event_script/event_script.h"
#include "event_file/event_writer.h"
#include "event_file/verifier.h"
#include "tests/testkit/small_cup.h"
#include "tests/unit/proto/entry_kit.h"
#include "wire/event_convert.h"
#include "wire/event_entry.h"

namespace courthand::event_file::kit {

namespace wk = wire::kit;

inline wire::Uuid tournament_id() {
    return wk::id(42);
}

/// The hash with which the record of `wk::five_entries()` ends.
inline std::string record_end() {
    return wire::to_hex(wire::sha256(wk::five_entries().back()));
}

inline std::string small_cup() {
    return testkit::six_teams() +
           "seeds U16 teams \"Quayside\" \"Ropewalk\" words \"by last year's places\"\n"
           "draw U16 rows pools 2 seed 1895\n"
           "bracket U16 single prefix M size 4 to-place 2 third-place\n"
           "person 7 coach team \"Mill Lane\" words \"Robin of Mill Lane\"\n"
           "result A1 table 25-20 25-18 record 07070707070707070707070707070707 head " +
           record_end() +
           "\nresult A2 paper 25-20 25-22\n"
           "result A3 paper 25-20 25-22\n"
           "result B1 paper 25-20 25-22\n"
           "result B2 paper 20-25 22-25\n"
           "result B3 paper 25-20 25-22\n"
           "result M1 paper 25-20 25-22\n"
           "result M2 paper 25-20 25-22\n"
           "result M3 paper 25-20 25-22\n"
           "result M4 paper 25-20 25-22\n"
           "note words \"the hall was closed at eight\"\n";
}

/// The same for the same place.
inline wire::Uuid fact_id(std::size_t place) {
    std::array<std::uint8_t, wire::Uuid::size> bytes{};
    bytes[0] = 1;
    bytes[14] = static_cast<std::uint8_t>(place / 256);
    bytes[15] = static_cast<std::uint8_t>(place % 256);
    return wire::Uuid{bytes};
}

struct KeptFact {
    std::string bytes;
    std::optional<Beside> beside;
};

/// Facts with their words as a server keeps them.
inline std::vector<KeptFact> kept(const std::vector<event::Said>& all) {
    std::vector<KeptFact> facts;
    wire::Hasher hasher;
    wire::Head head = wire::genesis(tournament_id(), hasher);
    for (const event::Said& said : all) {
        v1::TournamentEntry entry;
        entry.set_tournament_id(tournament_id().to_bytes());
        entry.set_entry_id(fact_id(facts.size()).to_bytes());
        entry.set_device_id(wk::id(9).to_bytes());
        entry.set_author("desk 1");
        wire::to_proto(said.fact, *entry.mutable_fact());
        KeptFact fact;
        if (!said.words.empty()) {
            fact.beside =
                Beside{Beside::State::words, std::string(wire::salt_bytes, 's'), said.words};
            v1::BesideWords words;
            words.set_salt(fact.beside->salt);
            words.set_text(fact.beside->text);
            entry.set_beside_hash(wire::to_bytes(wire::beside_hash(words)));
        }
        const auto sealed = wire::seal_event(std::move(entry), head, hasher);
        const auto& made = std::get<wire::ReadEventEntry>(sealed);
        head = made.head();
        fact.bytes = made.bytes();
        facts.push_back(std::move(fact));
    }
    return facts;
}

/// The facts of a script as a server keeps them.
inline std::vector<KeptFact> kept(const std::string& script) {
    const auto read = event::read_event(script);
    const auto* error = std::get_if<ScriptError>(&read);
    if (error != nullptr) ADD_FAILURE() << error->line << ": " << error->message;
    std::vector<event::Said> all;
    if (error == nullptr)
        for (const event::EventLine& line : std::get<event::EventScript>(read).lines)
            if (const auto* said = std::get_if<event::Said>(&line.content)) all.push_back(*said);
    return kept(all);
}

inline v1::Match planned_match() {
    v1::Match match;
    match.set_match_id(wk::match_id().to_bytes());
    match.set_tournament_id(tournament_id().to_bytes());
    match.set_number(1);
    match.set_court(3);
    match.mutable_first()->set_name("Harbour Lights");
    match.mutable_second()->set_name("Mill Lane");
    match.set_profile_id("international-2021");
    match.set_profile_hash(0xFEDC'BA98'7654'3210U);
    match.set_status(v1::MATCH_STATUS_SCHEDULED);
    return match;
}

/// Whether two entries of another device lie beside the record of the match.
enum class Forked : std::uint8_t { no, yes };

inline std::string file_of(const std::vector<KeptFact>& facts, Forked forked = Forked::no) {
    std::string file;
    EventWriter writer{[&](std::string_view piece) { file += piece; }, tournament_id(),
                       "Harbour Cup"};
    for (const KeptFact& fact : facts) writer.fact(fact.bytes, fact.beside);
    writer.match(planned_match());
    std::uint32_t number = 0;
    for (const std::string& entry : wk::five_entries()) {
        ++number;
        writer.entry(number, entry, number == 2 ? "signed" : "");
    }
    number = 3;
    if (forked == Forked::yes)
        for (const std::string& entry : wk::two_beside()) {
            ++number;
            writer.branch_entry(1, number, entry, number == 4 ? "signed" : "");
        }
    writer.finish();
    return file;
}

inline std::string small_file() {
    return file_of(kept(small_cup()));
}

/// The same with two entries on a branch of its match.
inline std::string forked_file() {
    return file_of(kept(small_cup()), Forked::yes);
}

inline std::vector<std::string> lines_of(const std::string& file) {
    std::vector<std::string> lines;
    std::istringstream in{file};
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

/// The lines as a file, with an end that fits them: whoever tampers can write one.
inline std::string with_end(std::vector<std::string> lines) {
    lines.pop_back();
    std::string file;
    for (const std::string& line : lines) file += line + '\n';
    return file + written(EndLine{static_cast<std::uint32_t>(lines.size()), wire::sha256(file)}) +
           '\n';
}

inline Verdict verdict_of(const std::string& file) {
    std::istringstream in{file};
    return verify(in);
}

inline std::string told(const Verdict& verdict) {
    std::string text;
    for (const Fault& fault : verdict.faults)
        text += std::to_string(fault.line) + ": " + fault.message + "; " + fault.cure + "\n";
    return text;
}

/// The file of these lines, with its end as it should be, is found to be so, and `what` is in a
/// message; each has its cure.
inline void expect_told(const std::vector<std::string>& lines, Verdict::Is is,
                        const std::string& what) {
    const Verdict verdict = verdict_of(with_end(lines));
    EXPECT_EQ(verdict.is, is) << told(verdict);
    EXPECT_NE(told(verdict).find(what), std::string::npos) << "wanted: " << what << "\nfound:\n"
                                                           << told(verdict);
    for (const Fault& fault : verdict.faults) EXPECT_FALSE(fault.cure.empty()) << fault.message;
}

}  // namespace courthand::event_file::kit
