#include "device_kit.h"

#include <gtest/gtest.h>
#include <openssl/ec.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509.h>

#include <fstream>
#include <iterator>

#include "courthand/script/script.h"

namespace courthand::server::testing {

namespace {

/// Ends a test that waits in vain, also under sanitizers on a loaded machine.
constexpr std::chrono::seconds patience{60};

using Key = std::unique_ptr<EVP_PKEY, decltype(&EVP_PKEY_free)>;
using Request = std::unique_ptr<X509_REQ, decltype(&X509_REQ_free)>;
using Memory = std::unique_ptr<BIO, decltype(&BIO_free)>;

std::string text_of(BIO* memory) {
    char* text = nullptr;
    const long size = BIO_get_mem_data(memory, &text);
    return {text, static_cast<std::size_t>(size)};
}

std::vector<Record> records_of(std::string_view script) {
    const auto read = read_script(script);
    if (const auto* error = std::get_if<ScriptError>(&read)) {
        ADD_FAILURE() << "line " << error->line << ": " << error->message;
        return {};
    }
    return records(std::get<Script>(read));
}

}  // namespace

void prepare(grpc::ClientContext& context) {
    context.AddMetadata("courthand-protocol", "1");
    context.set_wait_for_ready(true);
    context.set_deadline(std::chrono::system_clock::now() + patience);
}

std::shared_ptr<grpc::Channel> connect(const std::string& address, const std::string& authority_pem,
                                       const EnrolledDevice* device) {
    grpc::SslCredentialsOptions options;
    options.pem_root_certs = authority_pem;
    if (device) {
        options.pem_private_key = device->key_pem;
        options.pem_cert_chain = device->certificate_pem;
    }
    grpc::ChannelArguments arguments;
    arguments.SetInt(GRPC_ARG_INITIAL_RECONNECT_BACKOFF_MS, 50);
    arguments.SetInt(GRPC_ARG_MIN_RECONNECT_BACKOFF_MS, 50);
    arguments.SetInt(GRPC_ARG_MAX_RECONNECT_BACKOFF_MS, 200);
    arguments.SetInt(GRPC_ARG_USE_LOCAL_SUBCHANNEL_POOL, 1);
    return grpc::CreateCustomChannel(address, grpc::SslCredentials(options), arguments);
}

KeyAndRequest new_key_and_request() {
    const Key key{EVP_EC_gen("P-256"), &EVP_PKEY_free};
    const Request request{X509_REQ_new(), &X509_REQ_free};
    X509_REQ_set_pubkey(request.get(), key.get());
    X509_REQ_sign(request.get(), key.get(), EVP_sha256());
    const Memory key_text{BIO_new(BIO_s_mem()), &BIO_free};
    PEM_write_bio_PrivateKey(key_text.get(), key.get(), nullptr, nullptr, 0, nullptr, nullptr);
    const Memory request_text{BIO_new(BIO_s_mem()), &BIO_free};
    PEM_write_bio_X509_REQ(request_text.get(), request.get());
    return {text_of(key_text.get()), text_of(request_text.get())};
}

std::string authority_of(const ServerProcess& server) {
    std::ifstream in{server.data() / "authority" / "authority.crt"};
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

Device::Device(const ServerProcess& server, EnrolledDevice device)
    : enrolled{std::move(device)},
      channel{connect(server.address(), enrolled.authority_pem, &enrolled)},
      sync{v1::Sync::NewStub(channel)},
      venue{v1::Venue::NewStub(channel)},
      desk{v1::Desk::NewStub(channel)},
      tournament{v1::Tournament::NewStub(channel)} {}

Device Device::at(const ServerProcess& server, auth::Seat seat, auth::CourtNumber court) {
    return {server, enrol_device(server.dsn(), server.data(), seat, court)};
}

TestRecord record_of(std::string_view script, const wire::Uuid& match, DeviceId device) {
    TestRecord record{match, device};
    go_on(record, script);
    return record;
}

void go_on(TestRecord& record, std::string_view whole_script) {
    const std::vector<Record> all = records_of(whole_script);
    for (std::size_t i = record.size(); i < all.size(); ++i) {
        const auto* fact = std::get_if<Fact>(&all[i]);
        ASSERT_NE(fact, nullptr) << "only facts are pushed here";
        record.add(*fact);
    }
}

void push_all(Device& table, const TestRecord& record, const v1::Match* opened_here) {
    v1::PushRequest request;
    request.set_match_id(record.match().to_bytes());
    request.mutable_writer()->set_number(record.epoch());
    for (const std::string& bytes : record.bytes()) request.add_entries()->set_data(bytes);
    if (opened_here) *request.mutable_opened_here() = *opened_here;
    v1::PushResponse response;
    grpc::ClientContext context;
    prepare(context);
    const grpc::Status status = table.sync->Push(&context, request, &response);
    ASSERT_TRUE(status.ok()) << status.error_message();
    for (const v1::PushResult& result : response.results())
        ASSERT_TRUE(result.outcome() == v1::PushResult::OUTCOME_APPENDED ||
                    result.outcome() == v1::PushResult::OUTCOME_ALREADY_HAD)
            << result.message();
}

BoardWatch::BoardWatch(Device& device, std::string from) {
    prepare(context_);
    v1::WatchBoardRequest request;
    request.set_cursor(std::move(from));
    reader_ = device.venue->WatchBoard(&context_, request);
}

BoardWatch::~BoardWatch() {
    context_.TryCancel();
    if (reader_) (void)finish();
}

bool BoardWatch::read() {
    v1::WatchBoardResponse response;
    if (!reader_->Read(&response)) return false;
    if (response.snapshot()) {
        ++snapshots;
        cards.clear();
        alerts.clear();
    }
    for (const v1::CourtCard& card : response.cards()) cards[card.court()] = card;
    for (const v1::Alert& alert : response.alerts()) alerts[alert.alert_id()] = alert;
    for (const std::uint32_t court : response.removed_courts()) cards.erase(court);
    cursor = response.cursor();
    return true;
}

grpc::Status BoardWatch::finish() {
    v1::WatchBoardResponse rest;
    while (reader_->Read(&rest)) {
    }
    const grpc::Status status = reader_->Finish();
    reader_.reset();
    return status;
}

const v1::Alert* BoardWatch::alert(const std::string& code) const {
    for (const auto& [id, alert] : alerts)
        if (alert.code() == code) return &alert;
    return nullptr;
}

const v1::CourtCard* BoardWatch::card(std::uint32_t court) const {
    const auto found = cards.find(court);
    return found == cards.end() ? nullptr : &found->second;
}

}  // namespace courthand::server::testing
