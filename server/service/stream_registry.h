// Every open stream of the server, so that a clean shutdown can end them. Thread-safe.
#pragma once

#include <functional>
#include <map>
#include <mutex>

namespace courthand::server::service {

class StreamRegistry {
  public:
    using Token = std::uint64_t;
    /// Ends one stream soon; must not block nor call the registry.
    using End = std::function<void()>;

    /// 0 when the server is stopping: the stream must end at once.
    [[nodiscard]] Token add(End end);
    /// After it returns `end` is not running and will not be called.
    void remove(Token token);
    /// Ends all streams; later ones are turned away.
    void end_all();

  private:
    std::mutex mutex_;
    std::map<Token, End> streams_;
    Token last_ = 0;
    bool stopping_ = false;
};

}  // namespace courthand::server::service
