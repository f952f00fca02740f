// What the health service says, and why: serving as long as the database can be read and keeps what
// is pushed. Each change is one line of the log. Thread-safe.
#pragma once

#include <chrono>
#include <functional>
#include <mutex>

#include "server/store/status.h"

namespace courthand::server {

class Health {
  public:
    /// An append that waits longer than this does not serve anybody: shorter than a commit is
    /// waited for, far longer than a healthy one takes.
    static constexpr std::chrono::milliseconds longest_append{2500};
    /// How often the age of the append is looked at.
    static constexpr std::chrono::milliseconds looks_every{500};

    using Show = std::function<void(bool serving)>;

    /// From now on each change is shown there, and what holds now at once; an empty one ends it.
    void show_at(Show show);
    /// Whether the database could be read.
    void note_database(const Status& status);
    /// For how long nothing was kept although something waited.
    void note_append(std::chrono::milliseconds keeps_nothing_for);

  private:
    void show() const;

    std::mutex mutex_;
    Show show_;
    bool readable_ = true;
    bool keeps_ = true;
};

}  // namespace courthand::server
