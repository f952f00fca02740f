// A network cable between a client and a server that can be cut: what is sent then vanishes, and
// nobody is told that the connection is gone.
#pragma once

#include <atomic>
#include <cstdint>
#include <list>
#include <string>
#include <thread>

namespace courthand::client {

class Cable {
  public:
    /// Leads to that port of this machine, from a free one.
    explicit Cable(std::uint16_t to);
    Cable(const Cable&) = delete;
    Cable& operator=(const Cable&) = delete;
    ~Cable();

    /// "127.0.0.1:PORT", for the client.
    [[nodiscard]] std::string address() const;
    /// Nothing is read any more, and no connection is closed; new ones are taken and lead nowhere.
    void cut() { cut_ = true; }
    /// What was connected before or meanwhile stays dead, as behind a switch that has forgotten it;
    /// new connections get through.
    void mend() {
        ++age_;
        cut_ = false;
    }

  private:
    struct Pair {
        int client = -1;
        int server = -1;
        int age = 0;
        bool closed = false;
    };
    void run();
    void take_connection();
    void carry(Pair& pair);
    [[nodiscard]] static bool carry(int from, int to);

    std::uint16_t to_ = 0;
    std::uint16_t port_ = 0;
    int listener_ = -1;
    std::atomic<bool> cut_{false};
    std::atomic<bool> stop_{false};
    std::atomic<int> age_{0};
    std::list<Pair> pairs_;  ///< the thread's
    std::thread thread_;
};

}  // namespace courthand::client
