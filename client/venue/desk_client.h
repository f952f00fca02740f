// The desk's book over the network: read every few seconds and after every act.
#pragma once

#include <memory>

#include "venue/desk_source.h"

namespace grpc {
class Channel;
}

namespace courthand::venue {

/// One thread reads the book, one makes the calls. After a loss the last book stays.
class DeskClient final : public DeskSource {
  public:
    explicit DeskClient(std::shared_ptr<grpc::Channel> channel);
    ~DeskClient() override;

    void start(Listener listener) override;
    void stop() override;
    void read_roster(const RosterText& file, bool keep, ReadingAnswer answer) override;
    void create_match(const MatchWanted& match, Answer answer) override;
    void assign_court(const Id& match_id, CourtNumber court, Answer answer) override;
    void issue_code(Seat seat, CourtNumber court, CodeAnswer answer) override;
    void revoke_device(const Id& device_id, const std::string& reason, Answer answer) override;
    void read_audit(std::uint64_t before, AuditAnswer answer) override;

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace courthand::venue
