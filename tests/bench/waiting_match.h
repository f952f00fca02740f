// A simulated match as a device holds it when no server could be reached: sealed, in pushes.
#pragma once

#include <vector>

#include "courthand/v1/sync.pb.h"
#include "server/domain/ids.h"
#include "tests/bench/played_match.h"
#include "wire/uuid.h"

namespace courthand::bench {

/// The whole match in full pushes; the last may be smaller. The first claims the match.
[[nodiscard]] std::vector<v1::PushRequest> waiting_pushes(const wire::Uuid& match,
                                                          server::DeviceId device,
                                                          const PlayedMatch& play);

}  // namespace courthand::bench
