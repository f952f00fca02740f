#include "server/store/status.h"

namespace courthand::server {

const char* word(StatusCode code) noexcept {
    switch (code) {
        case StatusCode::ok:
            return "ok";
        case StatusCode::not_found:
            return "not-found";
        case StatusCode::already_exists:
            return "already-exists";
        case StatusCode::conflict:
            return "conflict";
        case StatusCode::not_allowed:
            return "not-allowed";
        case StatusCode::not_enrolled:
            return "not-enrolled";
        case StatusCode::invalid:
            return "invalid";
        case StatusCode::not_now:
            return "not-now";
        case StatusCode::exhausted:
            return "exhausted";
        case StatusCode::unavailable:
            return "unavailable";
        case StatusCode::in_doubt:
            return "in-doubt";
        case StatusCode::schema_newer:
            return "schema-newer";
        case StatusCode::internal:
            return "internal";
    }
    return "internal";
}

}  // namespace courthand::server
