#include <bit>
#include <type_traits>

#include <xxhash.h>

#include "courthand/match/state.h"

namespace courthand {

// The bytes of the state are hashed as they lie in memory: no padding, one byte order.
static_assert(std::has_unique_object_representations_v<MatchState>);
static_assert(std::endian::native == std::endian::little);

std::uint64_t state_hash(const MatchState& state) noexcept {
    MatchState plain = state;
    for (Standing& fault : plain.standing) fault.entry = 0;
    return XXH3_64bits(&plain, sizeof plain);
}

}  // namespace courthand
