#include "tests/bench/waiting_match.h"

#include "server/testing/test_record.h"
#include "wire/message_limits.h"

namespace courthand::bench {

std::vector<v1::PushRequest> waiting_pushes(const wire::Uuid& match, server::DeviceId device,
                                            const PlayedMatch& play) {
    server::testing::TestRecord record{match, device};
    for (const Entry& entry : play) record.add(entry.fact);
    std::vector<v1::PushRequest> pushes;
    for (const std::string& bytes : record.bytes()) {
        if (pushes.empty() ||
            pushes.back().entries_size() == static_cast<int>(wire::most_batch_entries)) {
            v1::PushRequest& push = pushes.emplace_back();
            push.set_match_id(match.to_bytes());
            push.mutable_writer()->set_number(record.epoch());
        }
        pushes.back().add_entries()->set_data(bytes);
    }
    return pushes;
}

}  // namespace courthand::bench
