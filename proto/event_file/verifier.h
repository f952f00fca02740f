// Checks an event file, line by line: each record by its chain, and what the event came to by doing
// it again from the facts. No server, no database, no clock.
#pragma once

#include <istream>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "courthand/event/state.h"
#include "event_file/branch_check.h"
#include "event_file/lines.h"
#include "event_file/record_check.h"
#include "event_file/running_hash.h"

namespace courthand::event_file {

struct Verdict {
    enum class Is : std::uint8_t {
        whole,       ///< everything holds
        changed,     ///< something does not hold
        unreadable,  ///< no event file, another version, or broken lines
    };
    Is is = Is::whole;
    std::vector<Fault> faults;  ///< by line, `most_faults` at most
    wire::Uuid tournament;
    std::string name;
    wire::Head head;  ///< of the record of the tournament
    std::uint32_t matches = 0;
    std::uint64_t entries = 0;  ///< of the records of matches
    std::uint64_t beside = 0;   ///< entries on branches of these records
    wire::Hash end{};           ///< of all lines before the last; of a whole file
};

/// ", and 2 on branches" behind the number of entries; empty without any.
[[nodiscard]] std::string beside_words(const Verdict& verdict);

class Verifier {
  public:
    Verifier();
    ~Verifier();
    Verifier(const Verifier&) = delete;
    Verifier& operator=(const Verifier&) = delete;

    /// The next line, without its line end. After an unreadable head the rest is not looked at.
    void take(std::string_view text);
    [[nodiscard]] Verdict finish();

    /// The number of the fact whose hash begins so, as it stands at the foot of a paper.
    [[nodiscard]] std::optional<std::uint32_t> fact_of_hash(std::string_view hex) const;

  private:
    void take(const HeadLine& line);
    void take(const FactLine& line);
    void take(const MatchLine& line);
    void take(const EntryLine& line);
    void take(const BranchLine& line);
    void take(const event::Drawn& line);
    void take(const event::PoolPlaces& line);
    void take(const event::FinalPlaces& line);
    void take(const RecordLine& line);
    void take(const EndLine& line);
    /// Anything but the head, first: there is no more to be read.
    [[nodiscard]] bool begun(const Line& line);
    void check_beside(const FactLine& line, const std::optional<wire::Hash>& sealed);
    void check_results();
    void check_summary();
    void check_heads();
    void check_head(const RecordCheck& record, const BesideRecord& beside,
                    const std::string& whose);
    [[nodiscard]] bool facts_hold() const;
    void fault(std::uint32_t line, std::string message, std::string cure);
    void unreadable(Fault why);

    template <class Said>
    struct Placed {
        std::uint32_t line = 0;
        Said said;
    };
    template <class Said, class Name>
    void compare(const std::vector<Placed<Said>>& stated, const std::vector<Said>& found, Name name,
                 std::string_view what);

    Verdict verdict_;
    bool stopped_ = false;
    bool ended_ = false;
    std::uint32_t line_ = 0;
    RunningHash hash_;
    std::unique_ptr<RecordCheck> facts_;
    std::vector<wire::Hash> fact_hashes_;
    std::vector<event::Fact> said_;
    event::TournamentState state_;  ///< of `said_`, once all was read
    /// A match: its record, and what lies beside it.
    struct MatchCheck {
        RecordCheck record;
        BranchCheck branches;
    };
    std::vector<std::unique_ptr<MatchCheck>> matches_;
    /// Ends of records that a result rests on and that were not met yet: by record and hash, the
    /// fact.
    std::map<std::pair<wire::Uuid, wire::Hash>, event::FactNumber> wanted_ends_;
    std::vector<Placed<event::Drawn>> draws_;
    std::vector<Placed<event::PoolPlaces>> pools_;
    std::vector<Placed<event::FinalPlaces>> finals_;
    std::map<wire::Uuid, Placed<RecordLine>> heads_;
};

/// The whole file.
[[nodiscard]] Verdict verify(std::istream& file);
/// The same, with the lines left to the caller's verifier.
void take_lines(std::istream& file, Verifier& verifier);

}  // namespace courthand::event_file
