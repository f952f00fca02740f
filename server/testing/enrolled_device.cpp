#include "server/testing/enrolled_device.h"

#include <openssl/ec.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509.h>

#include <chrono>
#include <memory>
#include <stdexcept>

#include "server/auth/enrolment.h"
#include "server/auth/postgres/pg_enrolment_store.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/testing/or_throw.h"

namespace courthand::server::testing {
namespace {

using Key = std::unique_ptr<EVP_PKEY, decltype(&EVP_PKEY_free)>;
using Request = std::unique_ptr<X509_REQ, decltype(&X509_REQ_free)>;
using Memory = std::unique_ptr<BIO, decltype(&BIO_free)>;

std::string text_of(BIO* memory) {
    char* text = nullptr;
    const long size = BIO_get_mem_data(memory, &text);
    return {text, static_cast<std::size_t>(size)};
}

std::string pem_of_key(EVP_PKEY* key) {
    const Memory memory{BIO_new(BIO_s_mem()), &BIO_free};
    PEM_write_bio_PrivateKey(memory.get(), key, nullptr, nullptr, 0, nullptr, nullptr);
    return text_of(memory.get());
}

std::string signing_request(EVP_PKEY* key) {
    const Request request{X509_REQ_new(), &X509_REQ_free};
    X509_REQ_set_pubkey(request.get(), key);
    X509_REQ_sign(request.get(), key, EVP_sha256());
    const Memory memory{BIO_new(BIO_s_mem()), &BIO_free};
    PEM_write_bio_X509_REQ(memory.get(), request.get());
    return text_of(memory.get());
}

template <class T>
T or_throw(Result<T> result) {
    if (!result.ok()) throw std::runtime_error{result.status().text()};
    return *std::move(result);
}

}  // namespace

EnrolledDevice enrol_device(const std::string& dsn, const std::filesystem::path& data,
                            auth::Seat seat, auth::CourtNumber court) {
    const auto now = std::chrono::system_clock::now();
    const auth::Authority authority = or_throw(auth::Authority::open(data / "authority", now));
    postgres::Database database{dsn};
    postgres::PgMatchStore matches{database};
    const auto tournaments = value_or_throw(matches.tournaments());
    if (tournaments.empty()) throw std::runtime_error{"there is no tournament yet"};
    const auto store = auth::make_pg_enrolment_store(database, tournaments.front().id);

    auth::CodeWish wish;
    wish.seat = seat;
    wish.court = court;
    const auth::IssuedCode code = or_throw(auth::issue_code(*store, authority, wish, now));
    const Key key{EVP_EC_gen("P-256"), &EVP_PKEY_free};
    const auto shown = wire::EnrolmentCode::parse(code.text);
    const std::string secret = std::get<wire::EnrolmentCode>(shown).secret();
    const std::string request = signing_request(key.get());
    const auth::Enrolled enrolled =
        or_throw(auth::enrol(*store, authority, {secret, request, "test device"}, now));
    return {enrolled.who.device, pem_of_key(key.get()), enrolled.certificate_pem,
            enrolled.authority_pem};
}

}  // namespace courthand::server::testing
