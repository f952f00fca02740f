// The desk's one button: the whole event as files in a folder on this computer.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "venue/link.h"

namespace grpc {
class Channel;
}

namespace courthand::venue {

struct ExportWanted {
    std::filesystem::path folder;  ///< must not be there yet, or be empty
    bool with_names = false;       ///< of persons
    std::string author;            ///< function of the person who asks
};

/// One thread makes the calls. The folder is there as a whole or not at all.
class ExportClient {
  public:
    explicit ExportClient(std::shared_ptr<grpc::Channel> channel);
    /// Gives up what is under way.
    ~ExportClient();
    ExportClient(const ExportClient&) = delete;
    ExportClient& operator=(const ExportClient&) = delete;

    /// `answer` is called on the thread of the client.
    void save(const ExportWanted& wanted, Answer answer);

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace courthand::venue
