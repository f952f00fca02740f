#include "server/domain/fault_log.h"

#include <cstdio>
#include <exception>
#include <utility>

namespace courthand::server {
namespace {

FaultLog& fault_log() {
    static FaultLog log;
    return log;
}

}  // namespace

void set_fault_log(FaultLog log) {
    fault_log() = std::move(log);
}

void log_fault(std::string_view where, std::string_view what) noexcept {
    try {
        if (fault_log()) return fault_log()(where, what);
    } catch (...) {
        // A log that fails must not be what ends the server.
    }
    std::fprintf(stderr, "fault in %.*s: %.*s\n", static_cast<int>(where.size()), where.data(),
                 static_cast<int>(what.size()), what.data());
}

void log_current_exception(std::string_view where) noexcept {
    try {
        throw;
    } catch (const std::exception& fault) {
        log_fault(where, fault.what());
    } catch (...) {
        log_fault(where, "an exception without words");
    }
}

}  // namespace courthand::server
