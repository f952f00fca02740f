#include "tests/bench/echo_server.h"

#include <grpcpp/grpcpp.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <stdexcept>

#include "courthand/v1/sync.grpc.pb.h"
#include "server/auth/authority.h"
#include "tests/bench/bench_folder.h"

namespace courthand::bench {
namespace {

using server::auth::Authority;
using server::auth::ServerIdentity;

class EchoService final : public v1::Sync::CallbackService {
    grpc::ServerUnaryReactor* Push(grpc::CallbackServerContext* context,
                                   const v1::PushRequest* request,
                                   v1::PushResponse* response) override {
        response->set_request_number(request->request_number());
        for (int i = 0; i < request->entries_size(); ++i)
            response->add_results()->set_outcome(v1::PushResult::OUTCOME_APPENDED);
        grpc::ServerUnaryReactor* const reactor = context->DefaultReactor();
        reactor->Finish(grpc::Status::OK);
        return reactor;
    }
};

ServerIdentity new_identity() {
    const BenchFolder folder;
    const auto now = std::chrono::system_clock::now();
    const auto authority = Authority::open(folder.path() / "authority", now);
    if (!authority.ok()) throw std::runtime_error{"no authority for the bare server"};
    auto identity = authority->server_identity({}, now);
    if (!identity.ok()) throw std::runtime_error{"no certificate for the bare server"};
    return *std::move(identity);
}

[[noreturn]] void serve(const ServerIdentity& identity, int say_port) {
    EchoService service;
    grpc::SslServerCredentialsOptions options;
    options.pem_key_cert_pairs.push_back({identity.key_pem, identity.cert_chain_pem});
    grpc::ServerBuilder builder;
    int port = 0;
    builder.AddListeningPort("127.0.0.1:0", grpc::SslServerCredentials(options), &port);
    builder.RegisterService(&service);
    const auto server = builder.BuildAndStart();
    if (server == nullptr || write(say_port, &port, sizeof port) != sizeof port) _exit(1);
    server->Wait();
    _exit(0);
}

}  // namespace

EchoServer::EchoServer() {
    const ServerIdentity identity = new_identity();
    authority_pem_ = identity.authority_pem;
    int ends[2];
    if (pipe(ends) != 0) throw std::runtime_error{"cannot make a pipe"};
    const pid_t parent = getpid();
    pid_ = fork();
    if (pid_ == 0) {
        // Ends with the program that measures, whatever becomes of it.
        prctl(PR_SET_PDEATHSIG, SIGKILL);
        if (getppid() != parent) _exit(1);
        close(ends[0]);
        serve(identity, ends[1]);
    }
    close(ends[1]);
    int port = 0;
    const bool said = read(ends[0], &port, sizeof port) == sizeof port;
    close(ends[0]);
    if (!said) throw std::runtime_error{"the bare server does not start"};
    address_ = "127.0.0.1:" + std::to_string(port);
}

EchoServer::~EchoServer() {
    kill(pid_, SIGKILL);
    waitpid(pid_, nullptr, 0);
}

}  // namespace courthand::bench
