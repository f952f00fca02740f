#include "server/testing/server_process.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <thread>

namespace courthand::server::testing {
namespace {

/// Long enough for a loaded machine under sanitizers; a test that fails says so late, not wrongly.
constexpr std::chrono::seconds patience{120};

std::filesystem::path new_folder() {
    std::string pattern =
        (std::filesystem::temp_directory_path() / "courthand-test.XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error{"cannot make a test folder"};
    return pattern;
}

int exit_code_of(int status) {
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

}  // namespace

std::unique_ptr<ServerProcess> second_server(const ServerProcess& first) {
    ServerOptions options{first.dsn(), first.data() / "second", 0, {}};
    std::filesystem::create_directories(options.data);
    std::filesystem::copy(first.data() / "authority", options.data / "authority",
                          std::filesystem::copy_options::recursive);
    return std::make_unique<ServerProcess>(options);
}

CommandResult run_server_command(const std::vector<std::string>& words) {
    int ends[2];
    if (pipe2(ends, O_CLOEXEC) != 0) throw std::runtime_error{"cannot make a pipe"};
    std::vector<std::string> all{COURTHAND_SERVER_BINARY};
    all.insert(all.end(), words.begin(), words.end());
    std::vector<char*> argv;
    for (std::string& word : all) argv.push_back(word.data());
    argv.push_back(nullptr);
    const pid_t pid = fork();
    if (pid == 0) {
        dup2(ends[1], STDOUT_FILENO);
        dup2(ends[1], STDERR_FILENO);
        execv(argv[0], argv.data());
        _exit(127);
    }
    close(ends[1]);
    CommandResult result;
    char buffer[512];
    ssize_t count = 0;
    while ((count = read(ends[0], buffer, sizeof buffer)) > 0)
        result.output.append(buffer, static_cast<std::size_t>(count));
    close(ends[0]);
    int status = 0;
    waitpid(pid, &status, 0);
    result.exit_code = exit_code_of(status);
    return result;
}

std::uint16_t free_port() {
    const int fd = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    auto* const generic = reinterpret_cast<sockaddr*>(&address);
    const bool bound = bind(fd, generic, size) == 0 && getsockname(fd, generic, &size) == 0;
    close(fd);
    if (!bound) throw std::runtime_error{"no free port on the loopback address"};
    return ntohs(address.sin_port);
}

ServerProcess::ServerProcess(ServerOptions options)
    : ServerProcess{std::move(options), DoNotWait{}} {
    wait_until_ready();
}

ServerProcess::ServerProcess(ServerOptions options, DoNotWait)
    : options_{std::move(options)}, data_{options_.data}, port_{options_.port} {
    own_data_ = data_.empty();
    if (own_data_) data_ = new_folder();
    if (port_ == 0) port_ = free_port();
    launch();
}

ServerProcess::~ServerProcess() {
    kill9();
    std::error_code ignored;
    if (own_data_) std::filesystem::remove_all(data_, ignored);
}

std::string ServerProcess::address() const {
    return "127.0.0.1:" + std::to_string(port_);
}

std::string ServerProcess::log() const {
    std::ifstream in{data_ / "server.log"};
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

void ServerProcess::launch() {
    std::filesystem::create_directories(data_);
    int ends[2];
    if (pipe2(ends, O_CLOEXEC) != 0) throw std::runtime_error{"cannot make a pipe"};
    const std::string log_file = data_ / "server.log";
    std::vector<std::string> words{COURTHAND_SERVER_BINARY,
                                   "serve",
                                   "--listen",
                                   address(),
                                   "--database",
                                   options_.dsn,
                                   "--data",
                                   data_.string()};
    words.insert(words.end(), options_.more_words.begin(), options_.more_words.end());
    std::vector<char*> argv;
    for (std::string& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);
    pid_ = fork();
    if (pid_ == 0) {
        const int log = open(log_file.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0644);
        dup2(ends[1], STDOUT_FILENO);
        dup2(log, STDERR_FILENO);
        execv(argv[0], argv.data());
        _exit(127);
    }
    close(ends[1]);
    if (ready_pipe_ >= 0) close(ready_pipe_);
    ready_pipe_ = ends[0];
    if (pid_ < 0) throw std::runtime_error{"cannot start a process"};
}

void ServerProcess::wait_until_ready() {
    const auto deadline = std::chrono::steady_clock::now() + patience;
    std::string said;
    while (std::chrono::steady_clock::now() < deadline) {
        pollfd poll_fd{ready_pipe_, POLLIN, 0};
        if (poll(&poll_fd, 1, 200) <= 0) continue;
        char buffer[256];
        const ssize_t count = read(ready_pipe_, buffer, sizeof buffer);
        if (count <= 0) break;
        said.append(buffer, static_cast<std::size_t>(count));
        if (said.find("ready on ") != std::string::npos) return;
    }
    throw std::runtime_error{"the server is not ready; its log ends:\n" + log()};
}

void ServerProcess::wait_for_log(const std::string& words) const {
    const auto deadline = std::chrono::steady_clock::now() + patience;
    while (log().find(words) == std::string::npos) {
        if (std::chrono::steady_clock::now() > deadline)
            throw std::runtime_error{"not in the log: " + words + "\n" + log()};
        std::this_thread::sleep_for(std::chrono::milliseconds{20});
    }
}

void ServerProcess::kill9() {
    if (pid_ > 0) {
        ::kill(pid_, SIGKILL);
        waitpid(pid_, nullptr, 0);
    }
    pid_ = -1;
    if (ready_pipe_ >= 0) close(ready_pipe_);
    ready_pipe_ = -1;
}

int ServerProcess::stop() {
    if (pid_ > 0) ::kill(pid_, SIGTERM);
    return wait_for_end();
}

int ServerProcess::wait_for_end() {
    if (pid_ <= 0) throw std::logic_error{"the server does not run"};
    const auto deadline = std::chrono::steady_clock::now() + patience;
    int status = 0;
    while (waitpid(pid_, &status, WNOHANG) == 0) {
        if (std::chrono::steady_clock::now() > deadline)
            throw std::runtime_error{"the server does not end; its log:\n" + log()};
        std::this_thread::sleep_for(std::chrono::milliseconds{5});
    }
    pid_ = -1;
    return exit_code_of(status);
}

void ServerProcess::start_again() {
    kill9();
    launch();
    wait_until_ready();
}

}  // namespace courthand::server::testing
