// The one exception that leaves a journal: its disk fails under a read, long after it was opened
// whole. It stops where a person can be told (session/unreadable.h).
#pragma once

#include <stdexcept>
#include <string>

namespace courthand::client {

class UnreadableJournal : public std::runtime_error {
  public:
    /// `why`: what the disk or the database said of it.
    explicit UnreadableJournal(const std::string& why) : std::runtime_error{why} {}
};

}  // namespace courthand::client
