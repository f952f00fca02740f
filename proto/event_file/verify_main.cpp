// courthand-verify: says whether an event file is as it was written, and what in it is not.
#include <fmt/format.h>
#include <google/protobuf/stubs/logging.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <fstream>
#include <string>

#include "event_file/verifier.h"

namespace courthand::event_file {
namespace {

constexpr int exit_whole = 0;
constexpr int exit_changed = 1;
constexpr int exit_unreadable = 2;

/// As many digits as stand at the foot of a paper, so that no other fact is likely to have them.
constexpr std::size_t fewest_digits = 8;

struct Options {
    std::string file;
    std::string paper;
};

int unreadable(const std::string& message) {
    fmt::print(stderr, "{}\n", message);
    return exit_unreadable;
}

void print(const Options& options, const Fault& fault) {
    const std::string line = fault.line == 0 ? "" : fmt::format("{}:", fault.line);
    fmt::print("{}:{} {}; {}\n", options.file, line, fault.message, fault.cure);
}

/// What a paper says about the record: its hash is that of one of the facts.
int check_paper(const Options& options, const Verifier& verifier) {
    const auto fact = verifier.fact_of_hash(options.paper);
    if (fact) {
        fmt::print("the paper shows the event as of fact {}\n", *fact);
        return exit_whole;
    }
    fmt::print(
        "{}: no fact has the hash {}; the paper is of another event, or of another course "
        "of this one\n",
        options.file, options.paper);
    return exit_changed;
}

int verify_file(const Options& options) {
    std::ifstream file{options.file, std::ios::binary};
    if (!file)
        return unreadable(
            fmt::format("{}: cannot be read; check the name and its rights", options.file));
    Verifier verifier;
    take_lines(file, verifier);
    if (file.bad())
        return unreadable(fmt::format("{}: cannot be read to its end; copy it anew", options.file));
    const Verdict verdict = verifier.finish();
    for (const Fault& fault : verdict.faults) print(options, fault);
    if (verdict.is == Verdict::Is::unreadable) return exit_unreadable;
    if (verdict.is == Verdict::Is::changed) return exit_changed;
    fmt::print("{} is whole: \"{}\", {} facts, {} matches with {} entries{}\n", options.file,
               verdict.name, verdict.head.seq, verdict.matches, verdict.entries,
               beside_words(verdict));
    fmt::print("the record of the tournament ends with the hash {}\n",
               wire::to_hex(verdict.head.hash));
    return options.paper.empty() ? exit_whole : check_paper(options, verifier);
}

}  // namespace
}  // namespace courthand::event_file

int main(int argc, char** argv) {
    using namespace courthand::event_file;
    // What cannot be parsed is told with its line, by us.
    google::protobuf::SetLogHandler(nullptr);
    Options options;
    CLI::App app{"Says whether an event file is as it was written, and what in it is not."};
    app.set_version_flag("--version", std::string{"courthand-verify "} + COURTHAND_VERSION);
    app.add_option("file", options.file, "the event file, event.jsonl of an export")->required();
    app.add_option("--paper", options.paper,
                   "the hash at the foot of a paper: says as of which fact it was printed")
        ->check([](const std::string& text) {
            const bool hex = std::all_of(text.begin(), text.end(), [](char c) {
                return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
            });
            return hex && text.size() >= fewest_digits
                       ? std::string{}
                       : std::string{"write 8 digits or more from 0 to 9 and a to f"};
        });
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? exit_whole : exit_unreadable;
    }
    return verify_file(options);
}
