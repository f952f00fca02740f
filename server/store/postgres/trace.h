// What an act leaves behind in its own transaction, so that neither is kept without the other.
//
// Whoever begins an act makes a Trace on its thread; the store that does the act calls
// `leave_trace` in the transaction. Other transactions of the thread leave nothing, and an act that
// nobody traces leaves nothing either.
#pragma once

#include <cstdint>
#include <functional>
#include <pqxx/pqxx>
#include <string>

namespace courthand::server::postgres {

class Trace {
  public:
    /// What is known only within the transaction.
    struct Added {
        std::string words{};
        std::string device{};  ///< the act made it; empty: the one that acts
        std::string seat{};
        std::uint32_t court = 0;
    };
    /// May run again when the transaction does.
    using Write = std::function<void(pqxx::work&, const Added&)>;

    /// One at a time on a thread.
    explicit Trace(Write write);
    ~Trace();
    Trace(const Trace&) = delete;
    Trace& operator=(const Trace&) = delete;

    /// True once a transaction has left it; kept when that transaction was.
    [[nodiscard]] bool left() const noexcept { return left_; }

  private:
    friend void leave_trace(pqxx::work& work, const Added& added);
    Write write_;
    bool left_ = false;
};

/// In the transaction of an act, when it has been done.
void leave_trace(pqxx::work& work, const Trace::Added& added = {});

}  // namespace courthand::server::postgres
