#include "venue/match_id.h"

#include <mutex>

#include "wire/uuid.h"

namespace courthand::venue {

Id new_match_id() {
    static std::mutex mutex;
    static wire::UuidMaker maker = wire::UuidMaker::of_system();
    const std::scoped_lock lock{mutex};
    return maker.next().to_text();
}

}  // namespace courthand::venue
