// The desk's book in memory: the twin of the network client, for tests and screens without server.
#pragma once

#include <mutex>

#include "venue/desk_source.h"

namespace courthand::venue {

/// Answers at once, on the caller's thread. Thread-safe. Its reading of roster files is given by
/// the test: what is wrong with a file is for the server to say.
class MemoryDesk final : public DeskSource {
  public:
    explicit MemoryDesk(DeskBook book);

    void start(Listener listener) override;
    void stop() override;
    void read_roster(const RosterText& file, bool keep, ReadingAnswer answer) override;
    void create_match(const MatchWanted& match, Answer answer) override;
    void assign_court(const Id& match_id, CourtNumber court, Answer answer) override;
    void issue_code(Seat seat, CourtNumber court, CodeAnswer answer) override;
    void revoke_device(const Id& device_id, const std::string& reason, Answer answer) override;
    void read_audit(std::uint64_t before, AuditAnswer answer) override;

    /// Replaces the book and tells the listener.
    void show(DeskBook book);
    /// Tells the listener how its connection stands.
    void show(const Link& link);
    /// What the next reading answers.
    void next_reading(RosterReading reading);
    /// The file that was read last.
    [[nodiscard]] RosterText last_roster() const;
    /// What the audit holds, newest first.
    void show_audit(std::vector<AuditListed> lines);
    /// The next request fails with this sentence.
    void fail_next(std::string problem);
    [[nodiscard]] DeskBook book() const;

  private:
    [[nodiscard]] Outcome outcome();
    void tell() const;

    mutable std::mutex mutex_;
    DeskBook book_;
    RosterReading reading_;
    RosterText last_roster_;
    std::vector<AuditListed> audit_;
    std::string problem_;
    Listener listener_;
};

}  // namespace courthand::venue
