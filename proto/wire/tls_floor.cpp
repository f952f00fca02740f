#include "wire/tls_floor.h"

#include <cstdlib>

namespace courthand::wire {

void require_tls_1_3() {
    constexpr const char* never_agreed = "PSK-AES128-GCM-SHA256:PSK-AES256-GCM-SHA384";
    if (::setenv("GRPC_SSL_CIPHER_SUITES", never_agreed, 1) != 0) std::abort();
}

}  // namespace courthand::wire
