#include "test_client.h"

#include <stdexcept>

#include "server/auth/entry_signature.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::testing {

TestClient::TestClient(std::string address, EnrolledDevice device, std::string protocol)
    : device_{std::move(device)}, protocol_{std::move(protocol)} {
    grpc::SslCredentialsOptions options;
    options.pem_root_certs = device_.authority_pem;
    options.pem_private_key = device_.key_pem;
    options.pem_cert_chain = device_.certificate_pem;
    grpc::ChannelArguments arguments;
    arguments.SetInt(GRPC_ARG_INITIAL_RECONNECT_BACKOFF_MS, 50);
    arguments.SetInt(GRPC_ARG_MIN_RECONNECT_BACKOFF_MS, 50);
    arguments.SetInt(GRPC_ARG_MAX_RECONNECT_BACKOFF_MS, 200);
    // Each client its own connection, as separate devices have.
    arguments.SetInt(GRPC_ARG_USE_LOCAL_SUBCHANNEL_POOL, 1);
    channel_ = grpc::CreateCustomChannel(address, grpc::SslCredentials(options), arguments);
    stub_ = v1::Sync::NewStub(channel_);
}

void TestClient::prepare(grpc::ClientContext& context) const {
    context.AddMetadata("courthand-protocol", protocol_);
    context.set_wait_for_ready(true);
    context.set_deadline(std::chrono::system_clock::now() + patience);
}

TestClient::Pushed TestClient::push(const TestRecord& record, std::uint32_t first,
                                    std::uint32_t last, const v1::Match* opened_here) {
    v1::PushRequest request;
    request.set_match_id(record.match().to_bytes());
    request.mutable_writer()->set_number(record.epoch());
    for (std::uint32_t n = first; n <= last; ++n)
        request.add_entries()->set_data(record.bytes()[n - 1]);
    if (opened_here != nullptr) *request.mutable_opened_here() = *opened_here;
    Pushed pushed;
    grpc::ClientContext context;
    prepare(context);
    pushed.status = stub_->Push(&context, request, &pushed.response);
    return pushed;
}

TestClient::Pushed TestClient::push_bytes(const wire::Uuid& match,
                                          const std::vector<std::string>& entries) {
    v1::PushRequest request;
    request.set_match_id(match.to_bytes());
    request.mutable_writer()->set_number(1);
    for (const std::string& bytes : entries) request.add_entries()->set_data(bytes);
    Pushed pushed;
    grpc::ClientContext context;
    prepare(context);
    pushed.status = stub_->Push(&context, request, &pushed.response);
    return pushed;
}

TestClient::Pushed TestClient::hand_on(const TestRecord& record, std::uint32_t first,
                                       std::uint32_t last, const EnrolledDevice& maker) {
    v1::PushRequest request;
    request.set_match_id(record.match().to_bytes());
    request.mutable_writer()->set_number(record.epoch());
    for (std::uint32_t n = first; n <= last; ++n) {
        v1::EntryBytes& entry = *request.add_entries();
        entry.set_data(record.bytes()[n - 1]);
        entry.set_signature(auth::signature_of(maker.key_pem, entry.data()));
    }
    Pushed pushed;
    grpc::ClientContext context;
    prepare(context);
    pushed.status = stub_->Push(&context, request, &pushed.response);
    return pushed;
}

TestClient::Pushed TestClient::push_until_answered(const TestRecord& record, std::uint32_t first,
                                                   std::uint32_t last,
                                                   const v1::Match* opened_here) {
    Pushed pushed;
    const auto answered = [&] {
        pushed = push(record, first, last, opened_here);
        return pushed.status.ok();
    };
    (void)testkit::eventually(answered, patience);  // the status of the last one tells
    return pushed;
}

TestClient::Fetched TestClient::fetch(const wire::Uuid& match) {
    v1::FetchMatchRequest request;
    request.set_match_id(match.to_bytes());
    Fetched fetched;
    grpc::ClientContext context;
    prepare(context);
    fetched.status = stub_->FetchMatch(&context, request, &fetched.response);
    return fetched;
}

std::vector<std::string> TestClient::fetch_record(const wire::Uuid& match) {
    std::vector<std::string> record;
    const auto deadline = std::chrono::steady_clock::now() + patience;
    while (true) {
        v1::FetchMatchRequest request;
        request.set_match_id(match.to_bytes());
        request.set_after_seq(static_cast<std::uint32_t>(record.size()));
        v1::FetchMatchResponse response;
        grpc::ClientContext context;
        prepare(context);
        const grpc::Status status = stub_->FetchMatch(&context, request, &response);
        // A server that was killed is noticed by the first call; the next one finds the new one.
        if (status.error_code() == grpc::StatusCode::UNAVAILABLE &&
            std::chrono::steady_clock::now() < deadline)
            continue;
        if (!status.ok()) throw std::runtime_error{status.error_message()};
        for (const auto& entry : response.entries()) record.push_back(entry.data());
        if (record.size() >= response.head_seq()) return record;
    }
}

TestClient::Granted TestClient::grant(const wire::Uuid& match, bool take_over) {
    v1::GrantWriterRequest request;
    request.set_match_id(match.to_bytes());
    request.set_take_over(take_over);
    Granted granted;
    grpc::ClientContext context;
    prepare(context);
    granted.status = stub_->GrantWriter(&context, request, &granted.response);
    return granted;
}

TestWatch::TestWatch(TestClient& client, const v1::WatchRequest& request) {
    client.prepare(context_);
    reader_ = client.stub().Watch(&context_, request);
}

TestWatch::~TestWatch() {
    if (!reader_) return;
    context_.TryCancel();
    v1::WatchResponse ignored;
    while (reader_->Read(&ignored)) {
    }
    (void)reader_->Finish();
}

bool TestWatch::read() {
    v1::WatchResponse response;
    if (!reader_->Read(&response)) return false;
    for (const auto& entry : response.snapshot().entries()) entries.push_back(entry.data());
    for (const auto& entry : response.entries().entries())
        (response.entries().branch() == 0 ? entries : branch_entries).push_back(entry.data());
    if (response.has_resync()) {
        resync = true;
        entries.clear();
        branch_entries.clear();
    }
    snapshot_complete |= response.snapshot().snapshot_complete();
    if (!response.cursor().empty()) cursor = response.cursor();
    responses.push_back(std::move(response));
    return true;
}

grpc::Status TestWatch::finish() {
    v1::WatchResponse ignored;
    while (reader_->Read(&ignored)) {
    }
    const grpc::Status status = reader_->Finish();
    reader_.reset();
    return status;
}

v1::WatchRequest watch_match(const wire::Uuid& match, std::string cursor) {
    v1::WatchRequest request;
    request.set_match_id(match.to_bytes());
    request.set_cursor(std::move(cursor));
    return request;
}

}  // namespace courthand::server::testing
