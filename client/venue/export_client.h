// The whole event as files in a folder on this computer, from the server.
#pragma once

#include <memory>

#include "venue/event_exporter.h"

namespace grpc {
class Channel;
}

namespace courthand::venue {

/// One thread makes the calls, and calls back.
class ExportClient final : public EventExporter {
  public:
    explicit ExportClient(std::shared_ptr<grpc::Channel> channel);
    /// Gives up what is under way.
    ~ExportClient() override;

    void save(const ExportWanted& wanted, Progress progress, Answer answer) override;

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace courthand::venue
