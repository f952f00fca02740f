// The board in memory: the twin of the network client, for tests and for a screen without a server.
#pragma once

#include <mutex>

#include "venue/board_source.h"

namespace courthand::venue {

/// Answers at once, on the caller's thread. Thread-safe.
class MemoryBoard final : public BoardSource {
  public:
    explicit MemoryBoard(Board board, std::string own_name = "Head official");

    void start(Listener listener) override;
    void stop() override;
    void claim(const std::string& alert_id, Answer answer) override;
    void acknowledge(const std::string& alert_id, Answer answer) override;
    void rule(const std::string& alert_id, RulingChoice choice, const std::string& note,
              Answer answer) override;
    void shelve(const std::string& alert_id, std::chrono::minutes time, const std::string& reason,
                Answer answer) override;
    void answer_take_over(const Id& match_id, const Id& device_id, bool consent,
                          Answer answer) override;
    void look_at_fork(const std::string& alert_id, ForkAnswer answer) override;
    void settle_fork(const std::string& alert_id, ForkChoice choice, const std::string& note,
                     Answer answer) override;

    /// Replaces the board and tells the listener.
    void show(Board board);
    void show(const Link& link);
    [[nodiscard]] Board board() const;

    struct Ruled {
        std::string alert_id;
        RulingChoice choice{};
        std::string note;
    };
    /// Everything that was ruled, in order.
    [[nodiscard]] std::vector<Ruled> rulings() const;

    struct TakeOver {
        Id match_id;
        Id device_id;
        bool consent = false;
        friend bool operator==(const TakeOver&, const TakeOver&) = default;
    };
    /// Every wish to take over that was answered, in order.
    [[nodiscard]] std::vector<TakeOver> take_overs() const;

    /// What a look at a fork answers.
    void show_fork(Fork fork);
    struct Settled {
        std::string alert_id;
        ForkChoice choice{};
        std::string note;
        friend bool operator==(const Settled&, const Settled&) = default;
    };
    /// Every fork that was settled, in order.
    [[nodiscard]] std::vector<Settled> settled() const;

  private:
    void tell() const;

    mutable std::mutex mutex_;
    Board board_;
    std::string own_name_;
    Listener listener_;
    std::vector<Ruled> rulings_;
    std::vector<TakeOver> take_overs_;
    Fork fork_;
    std::vector<Settled> settled_;
};

}  // namespace courthand::venue
