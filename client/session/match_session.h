// What a table seat needs of a match: record a fact, correct an earlier one, read the state.
//
// All calls on one thread. The seat never sees the journal, the network or the clock; a test gives
// it a session in memory. The real one is `JournaledMatch`.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/state.h"
#include "courthand/match/team.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/verdict.h"

namespace courthand::client {

/// What came of recording. With an error nothing was written and the state is unchanged.
struct RecordResult {
    std::optional<std::string> error;  ///< a sentence for the person at the table, with the cure
    std::vector<Verdict> verdicts;     ///< raised, opened, cleared or ruled by these entries
    std::uint32_t seq = 0;             ///< number of the last entry in the match record, from 1
};

struct SyncStatus {
    enum class Link : std::uint8_t { offline, connecting, online };
    Link link = Link::offline;
    std::size_t waiting = 0;    ///< entries saved here that the server does not have yet
    std::string last_error;     ///< a sentence with the cure; empty when all is well
    std::size_t refused = 0;    ///< entries that the server did not take; they are offered again
    std::size_t beside = 0;     ///< entries that the server keeps on a branch, not in the record
    std::size_t elsewhere = 0;  ///< entries of other matches that are not in the server's record
    std::size_t rulings = 0;    ///< of the head official, on any match, to be recorded here still
    std::string unreadable;     ///< why the journal cannot be read, with the cure; empty: it can
    bool practice = false;      ///< never sent, and not meant to be
    std::string not_enrolled;   ///< why this device can send nothing, with the cure; empty: it can
    friend bool operator==(const SyncStatus&, const SyncStatus&) = default;

    /// The server's record holds every entry of this device, and nothing has still to be entered.
    [[nodiscard]] bool all_sent() const noexcept {
        return waiting == 0 && refused == 0 && beside == 0 && elsewhere == 0 && rulings == 0 &&
               unreadable.empty();
    }
};

/// Who writes the record of the match, as far as this device knows.
struct Writing {
    enum class Who : std::uint8_t {
        here,       ///< this device, or nobody yet: what a person enters begins or continues it
        elsewhere,  ///< another device; this one shows the match and records nothing
        fenced,     ///< another device now; what this one records is kept beside the record
    };
    /// The wish to go on here in the place of that device.
    enum class Wish : std::uint8_t {
        none,
        asking,    ///< on its way to the server
        asked,     ///< desk and head official see it
        declined,  ///< they said no
        failed,    ///< `words` say why
    };
    Who who = Who::here;
    Wish wish = Wish::none;
    std::string words;
    friend bool operator==(const Writing&, const Writing&) = default;
};

/// Who plays where: enough to start a match with no server.
struct MatchSheet {
    std::string match_id;      ///< UUID in its text form
    std::uint32_t number = 0;  ///< in the plan of the desk; 0: opened at a table
    std::string name;          ///< in the record of the tournament; empty: that has no such match
    std::uint16_t court = 0;
    PerTeam<std::string> names;
    PerTeam<std::string> colours;  ///< "#rrggbb", or empty when not known
    std::string profile;           ///< rule profile id

    /// One number of a team list as registered by the desk.
    struct Player {
        Jersey number{};
        std::string name;  ///< may be empty
        bool libero = false;
        bool captain = false;
        friend bool operator==(const Player&, const Player&) = default;
    };
    PerTeam<std::vector<Player>> players;  ///< empty when the desk sent no roster
    std::optional<MatchFormat> format;     ///< as planned by the desk; else as the profile says
};

/// What changes an earlier entry of the record.
using Correction = std::variant<Strike, Insert, Amend>;

/// A seat sees the match as opened; a record begins with the first fact a person enters, so that
/// looking at a match claims nothing. The team lists of the sheet are recorded
/// by the seat, once a person has confirmed them.
class MatchSession {
  public:
    virtual ~MatchSession() = default;

    /// Writes down what one touch says, facts alone or corrections alone, in one commit: all or
    /// none, numbered on from the last. Durable before it returns: the screen may confirm it. The
    /// words go beside each fact: a remark, a signature, a cause.
    virtual RecordResult record(std::span<const Record> what, std::string_view text) = 0;
    RecordResult record(const Fact& fact, std::string_view text = {}) {
        const Record alone{fact};
        return record(std::span{&alone, 1}, text);
    }
    /// Changes an earlier entry, by its number. The words go beside the fact that it brings.
    RecordResult correct(const Correction& correction, std::string_view text) {
        const Record alone = std::visit([](const auto& what) { return Record{what}; }, correction);
        return record(std::span{&alone, 1}, text);
    }
    /// Facts and corrections as written; entry n is at index n - 1. Valid until the next call that
    /// may write or read.
    [[nodiscard]] virtual std::span<const Record> written() const = 0;

    [[nodiscard]] virtual const MatchState& state() const = 0;
    [[nodiscard]] virtual const Rules& rules() const = 0;
    [[nodiscard]] virtual const MatchSheet& sheet() const = 0;
    /// Armed and open verdicts with their remedy as of now, oldest first.
    [[nodiscard]] virtual std::vector<Verdict> standing() const = 0;
    [[nodiscard]] virtual SyncStatus sync_status() const = 0;
    [[nodiscard]] virtual Writing writing() const { return {}; }
    /// Asks desk and head official that this device goes on with a match that another one writes.
    virtual void ask_to_go_on() {}
};

}  // namespace courthand::client
