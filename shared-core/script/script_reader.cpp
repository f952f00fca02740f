#include <fmt/format.h>

#include <algorithm>

#include "courthand/script/script.h"
#include "script/expectation_reader.h"
#include "script/fact_reader.h"
#include "script/line_reader.h"
#include "script/near_miss.h"
#include "script/tokens.h"
#include "script/words.h"

namespace courthand {
namespace script {
namespace {

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t";
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

class ScriptReader {
  public:
    explicit ScriptReader(const FindProfile& profiles) : profiles_{profiles} {}

    std::variant<Script, ScriptError> read(std::string_view text) {
        if (text.size() > largest_script)
            return ScriptError{
                1, 1,
                fmt::format("the file has {} bytes, {} are allowed", text.size(), largest_script),
                "a match needs far less; is this the right file?"};
        if (text.substr(0, byte_order_mark.size()) == byte_order_mark)
            text.remove_prefix(byte_order_mark.size());
        while (!text.empty()) {
            const std::size_t end = std::min(text.find('\n'), text.size());
            ++line_;
            if (!read_line(text.substr(0, end))) return error_;
            text.remove_prefix(std::min(end + 1, text.size()));
        }
        if (!finish()) return error_;
        return std::move(script_);
    }

  private:
    static constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

    bool read_line(std::string_view line) {
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        std::variant<Tokens, ScriptError> cut = cut_line(line, line_);
        if (const auto* const error = std::get_if<ScriptError>(&cut)) return fail(*error);
        Tokens& tokens = std::get<Tokens>(cut);
        if (tokens.items.empty()) {
            keep_source(trimmed(line));
            return true;
        }
        LineReader reader{std::move(tokens), line_};
        const std::string verb = reader.word("a verb");
        read_statement(verb, reader);
        reader.finish();
        return reader.failed() ? fail(reader.error()) : true;
    }

    void keep_source(std::string_view comment) {
        if (comment.empty() || source_seen_) return;
        source_seen_ = true;
        script_.source = trimmed(comment.substr(1));
    }

    void read_statement(const std::string& verb, LineReader& line) {
        if (line.failed()) return;
        if (verb == "profile") {
            read_profile_line(line);
        } else if (!known(verb)) {
            unknown_verb(verb, line);
        } else if (profile_ == nullptr) {
            line.fail(fmt::format("'{}' comes before the profile", verb),
                      "begin the script with a line such as 'profile international-2025'");
        } else {
            read_entry(verb, line);
        }
    }

    void read_entry(const std::string& verb, LineReader& line) {
        if (verb != "format") open_match();
        if (verb == "expect") {
            script_.lines.push_back({line_, read_expectation(line), {}});
        } else if (verb == "play") {
            read_play(line);
        } else if (verb == "strike") {
            read_strike(line);
        } else if (verb == "insert" || verb == "amend") {
            read_correction(verb, line);
        } else {
            SpokenFact spoken = read_spoken(verb, line);
            check_order(spoken.fact, line);
            add(Record{spoken.fact}, std::move(spoken.text), line);
        }
    }

    void read_profile_line(LineReader& line) {
        const std::string id = line.word("the id of a profile");
        if (line.failed()) return;
        if (profile_ != nullptr) {
            line.fail(fmt::format("a second profile; '{}' is in force", script_.profile),
                      "keep one profile line");
            return;
        }
        profile_ = profiles_(id);
        profile_line_ = line_;
        script_.profile = id;
        if (profile_ != nullptr) return;
        const std::vector<std::string> ids = profile_ids();
        const std::vector<std::string_view> views{ids.begin(), ids.end()};
        line.unknown_word("a known profile", id, views);
    }

    /// The match opens with the profile's own format unless a format line came first.
    void open_match() {
        if (entries_ != 0) return;
        script_.lines.push_back(
            {profile_line_, Record{Fact{MatchOpened{profile_->rules.format}}}, {}});
        ++entries_;
    }

    SpokenFact read_spoken(const std::string& verb, LineReader& line) {
        std::optional<SpokenFact> spoken = read_fact(verb, line, profile_->rules.format);
        if (!spoken) {
            line.fail(fmt::format("'{}' says no fact", verb),
                      "write one fact, such as 'libero A 21 for 5'");
            return {};
        }
        if (const auto* const roster = std::get_if<Roster>(&spoken->fact)) {
            keep_name(*roster, *spoken, line);
            spoken->text.clear();
        }
        return std::move(*spoken);
    }

    void keep_name(const Roster& roster, const SpokenFact& spoken, LineReader& line) {
        std::string& kept = script_.names[roster.team];
        if (kept.empty())
            kept = spoken.text;
        else if (!spoken.text.empty() && spoken.text != kept)
            line.fail_at(spoken.text_column, fmt::format("this team is already called '{}'", kept),
                         "leave the name out, or write the same one");
    }

    void check_order(const Fact& fact, LineReader& line) {
        if (const auto* const roster = std::get_if<Roster>(&fact)) listed_[roster->team] = true;
        if (!std::holds_alternative<SetStarted>(fact)) return;
        for (const Team team : {Team::A, Team::B})
            if (!listed_[team])
                line.fail(fmt::format("a set starts before team {} is listed",
                                      team == Team::A ? 'A' : 'B'),
                          "write its 'team' line above the first 'set' line");
    }

    /// "play A4 B5": four rallies won by A, then five by B.
    void read_play(LineReader& line) {
        do {
            const std::string run = line.word("a run of rallies such as A4");
            if (line.failed()) return;
            const Team team = run.front() == 'B' ? Team::B : Team::A;
            LineReader digits{Tokens{{Token{run.substr(1), 1, false}}, 1}, line_};
            const bool lettered = run.front() == 'A' || run.front() == 'B';
            const unsigned count = run.size() > 1 ? digits.number("a count", 1, most_points) : 1U;
            if (!lettered || digits.failed()) {
                line.fail(fmt::format("'{}' is not a run of rallies", run),
                          fmt::format("write the winner and a count from 1 to {}, such as A4",
                                      most_points));
                return;
            }
            for (unsigned i = 0; i < count && !line.failed(); ++i) {
                add(Record{Fact{Serve{}}}, {}, line);
                add(Record{Fact{RallyWon{team}}}, {}, line);
            }
        } while (!line.at_end());
    }

    void read_strike(LineReader& line) {
        const std::uint32_t target = line.accept("last") ? entries_ : line.entry_number(entries_);
        add(Record{Strike{target}}, {}, line);
    }

    void read_correction(const std::string& verb, LineReader& line) {
        const std::uint32_t target = line.entry_number(entries_);
        const std::string what = line.word("the fact");
        if (line.failed()) return;
        if (!known(what)) {
            unknown_verb(what, line);
            return;
        }
        SpokenFact spoken = read_spoken(what, line);
        if (verb == "insert")
            add(Record{Insert{target, spoken.fact}}, std::move(spoken.text), line);
        else
            add(Record{Amend{target, spoken.fact}}, std::move(spoken.text), line);
    }

    void add(const Record& record, std::string text, LineReader& line) {
        if (line.failed()) return;
        if (entries_ == most_entries) {
            line.fail(fmt::format("more than {} entries", most_entries),
                      "no match has so many; split the file");
            return;
        }
        script_.lines.push_back({line_, record, std::move(text)});
        ++entries_;
    }

    static bool known(std::string_view verb) {
        const std::vector<std::string_view> all = verbs();
        return std::find(all.begin(), all.end(), verb) != all.end();
    }
    static std::vector<std::string_view> verbs() {
        std::vector<std::string_view> all = fact_verbs();
        for (const std::string_view verb : other_verbs) all.push_back(verb);
        return all;
    }
    static void unknown_verb(const std::string& verb, LineReader& line) {
        const std::vector<std::string_view> all = verbs();
        line.fail(
            fmt::format("'{}' is no verb of a script", verb),
            suggestion(verb, all, "all of them are listed in shared-core/SCRIPT.md, under Words"));
    }

    bool finish() {
        if (profile_ == nullptr)
            return fail({std::max(line_, 1U), 1, "the script names no profile",
                         "begin it with a line such as 'profile international-2025'"});
        open_match();
        return true;
    }

    bool fail(const ScriptError& error) {
        error_ = error;
        return false;
    }

    const FindProfile& profiles_;
    Script script_;
    ScriptError error_;
    const Profile* profile_ = nullptr;
    std::uint32_t line_ = 0;
    std::uint32_t profile_line_ = 0;
    EntryNumber entries_ = 0;
    PerTeam<bool> listed_{};
    bool source_seen_ = false;
};

}  // namespace
}  // namespace script

std::variant<Script, ScriptError> read_script(std::string_view text, const FindProfile& profiles) {
    return script::ScriptReader{profiles}.read(text);
}

std::variant<Script, ScriptError> read_script(std::string_view text) {
    return read_script(text, find_profile);
}

std::vector<Record> records(const Script& script) {
    std::vector<Record> all;
    for (const ScriptLine& line : script.lines)
        if (const auto* const record = std::get_if<Record>(&line.content)) all.push_back(*record);
    return all;
}

}  // namespace courthand
