#include "venue/match_id.h"

#include <mutex>

#include "wire/uuid.h"

namespace courthand::venue {

Id new_match_id() {
    static std::mutex lock;
    static wire::UuidMaker maker = wire::UuidMaker::of_system();
    const std::lock_guard guard(lock);
    return maker.next().to_text();
}

}  // namespace courthand::venue
