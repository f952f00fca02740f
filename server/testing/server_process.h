// A real courthand-server process for tests: on a free port, with a data folder of its own.
//
// Not thread-safe. Failures to start throw std::runtime_error with the end of the server's log.
#pragma once

#include <sys/types.h>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace courthand::server::testing {

struct ServerOptions {
    std::string dsn;
    std::filesystem::path data;           ///< empty: a new folder, removed at the end
    std::uint16_t port = 0;               ///< 0: a free one, kept over restarts
    std::vector<std::string> more_words;  ///< of the command line
};

class ServerProcess {
  public:
    /// Waits until the server says that it is ready.
    explicit ServerProcess(ServerOptions options);
    /// Starts without waiting: for tests of a server that cannot be ready yet.
    struct DoNotWait {};
    ServerProcess(ServerOptions options, DoNotWait);
    /// Kills the process if it still runs.
    ~ServerProcess();
    ServerProcess(const ServerProcess&) = delete;
    ServerProcess& operator=(const ServerProcess&) = delete;

    /// "127.0.0.1:PORT"; the port is known once the server was ready.
    [[nodiscard]] std::string address() const;
    [[nodiscard]] std::uint16_t port() const noexcept { return port_; }
    [[nodiscard]] const std::filesystem::path& data() const noexcept { return data_; }
    [[nodiscard]] const std::string& dsn() const noexcept { return options_.dsn; }
    [[nodiscard]] pid_t pid() const noexcept { return pid_; }
    [[nodiscard]] std::string log() const;

    /// As if the machine had lost power, but for the disk.
    void kill9();
    /// Asks the server to stop (SIGTERM) and answers its exit code.
    int stop();
    /// Waits for the end of a server that ends by itself; its exit code.
    int wait_for_end();
    /// Starts it again on the same port, with the same data.
    void start_again();
    void wait_until_ready();
    /// Waits until the log holds the words.
    void wait_for_log(const std::string& words) const;

  private:
    void launch();

    ServerOptions options_;
    std::filesystem::path data_;
    bool own_data_ = false;
    std::uint16_t port_ = 0;
    pid_t pid_ = -1;
    int ready_pipe_ = -1;
};

/// A second server of the same venue: on the same database, with the same authority.
[[nodiscard]] std::unique_ptr<ServerProcess> second_server(const ServerProcess& first);

/// Runs a subcommand to its end; standard output and error together.
struct CommandResult {
    int exit_code = 0;
    std::string output;
};
[[nodiscard]] CommandResult run_server_command(const std::vector<std::string>& words);

/// A port that nobody listens on now.
[[nodiscard]] std::uint16_t free_port();

}  // namespace courthand::server::testing
