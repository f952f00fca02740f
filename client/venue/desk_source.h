// Where a desk seat gets its book and takes its acts. Implemented over the network and in memory.
#pragma once

#include <chrono>
#include <functional>
#include <string>

#include "venue/desk_book.h"
#include "venue/link.h"

namespace courthand::venue {

/// A file of team lists as a person gives it.
struct RosterText {
    std::string csv;
    std::string file_name;
    std::string reason;  ///< why frozen lists change; empty: none may
};

/// Callbacks may come on any thread and are never made after `stop` has returned.
class DeskSource {
  public:
    struct Listener {
        std::function<void(const DeskBook&)> book;
        std::function<void(const Link&)> link;
    };
    using ReadingAnswer = std::function<void(const RosterReading&)>;
    using AuditAnswer = std::function<void(const AuditPage&)>;
    using CodeAnswer = std::function<void(const CodeIssued&)>;

    /// The server refuses more; a team list of 500 teams is a tenth of it.
    static constexpr std::size_t largest_roster_file = 1024 * 1024;

    /// Lines of the audit in one answer.
    static constexpr std::size_t audit_page = 100;

    DeskSource() = default;
    DeskSource(const DeskSource&) = delete;
    DeskSource& operator=(const DeskSource&) = delete;
    virtual ~DeskSource() = default;

    virtual void start(Listener listener) = 0;
    virtual void stop() = 0;

    /// Reads a roster file; with `keep` the teams are kept when nothing is wrong.
    virtual void read_roster(const RosterText& file, bool keep, ReadingAnswer answer) = 0;
    virtual void create_match(const MatchWanted& match, Answer answer) = 0;
    /// Court 0 takes the match off its court.
    virtual void assign_court(const Id& match_id, CourtNumber court, Answer answer) = 0;
    virtual void issue_code(Seat seat, CourtNumber court, CodeAnswer answer) = 0;
    virtual void revoke_device(const Id& device_id, const std::string& reason, Answer answer) = 0;
    /// Lines with a lower number than `before`; 0: the newest.
    virtual void read_audit(std::uint64_t before, AuditAnswer answer) = 0;
};

}  // namespace courthand::venue
