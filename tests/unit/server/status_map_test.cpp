// What a caller is told of a status.
#include <gtest/gtest.h>

#include "server/service/status_map.h"

namespace courthand::server::service {
namespace {

TEST(StatusMap, EveryFailureIsToldWithACure) {
    int failures = 0;
    for (int i = 0; std::string{word(static_cast<StatusCode>(i))} != "internal"; ++i) {
        const auto code = static_cast<StatusCode>(i);
        if (code == StatusCode::ok) continue;
        ++failures;
        EXPECT_NE(code_of(code), grpc::StatusCode::OK) << word(code);
        EXPECT_FALSE(usual_cure(code).empty()) << word(code);
        const grpc::Status told = to_grpc(Status::failed(code, "it went wrong"));
        EXPECT_EQ(told.error_code(), code_of(code));
        EXPECT_EQ(told.error_message(), "it went wrong; " + std::string{usual_cure(code)});
    }
    EXPECT_EQ(failures, 11);
    EXPECT_FALSE(usual_cure(StatusCode::internal).empty());
}

TEST(StatusMap, TheCureThatAStatusNamesIsTheOneThatIsTold) {
    const grpc::Status told =
        to_grpc(Status::failed(StatusCode::not_found, "there is no such match", "ask the desk"));
    EXPECT_EQ(told.error_message(), "there is no such match; ask the desk");
    EXPECT_TRUE(to_grpc(Status::fine()).ok());
}

TEST(StatusMap, AStrangerHearsWhoseFaultItIsAndNoMore) {
    const struct {
        StatusCode code;
        const char* told;
    } cases[]{{StatusCode::unavailable, "the server cannot reach its database at the moment"},
              {StatusCode::in_doubt, "the server cannot reach its database at the moment"},
              {StatusCode::exhausted, "the server cannot reach its database at the moment"},
              // As when OpenSSL cannot make a certificate.
              {StatusCode::internal, "the server met a fault of its own"},
              {StatusCode::schema_newer, "the server met a fault of its own"}};
    for (const auto& one : cases) {
        const Status told =
            failure_for_strangers(Status::failed(one.code, "db7.venue refused cup_admin", "ask"));
        EXPECT_EQ(told.message, one.told) << word(one.code);
        EXPECT_FALSE(told.cure.empty());
        EXPECT_EQ(told.text().find("db7"), std::string::npos) << told.text();
    }
}

}  // namespace
}  // namespace courthand::server::service
