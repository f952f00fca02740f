#include "server/tournament/say.h"

#include <chrono>
#include <utility>

namespace courthand::server::tournament {

namespace {

std::int64_t now_us() {
    return std::chrono::duration_cast<std::chrono::microseconds>(
               std::chrono::system_clock::now().time_since_epoch())
        .count();
}

/// Another came first, or said the same under the same id.
bool again(const Result<Outcome>& outcome) {
    return outcome.ok() ? outcome->fate == Outcome::Fate::overtaken
                        : outcome.status().code == StatusCode::conflict;
}

}  // namespace

Speaker this_server() {
    return {DeviceId{}, "server"};
}

std::vector<Act::Said> newly_said(std::vector<event::Said> facts) {
    std::vector<Act::Said> said;
    said.reserve(facts.size());
    for (event::Said& fact : facts) said.push_back({FactId{new_uuid()}, std::move(fact)});
    return said;
}

Result<KnownRecord> say(RecordKeeper& record, const Speaker& speaker, const Missing& missing) {
    FactNumber last = 0;
    int in_vain = 0;
    for (int part = 0; part < most_parts; ++part) {
        if (Status status = record.catch_up(); !status.ok()) return status;
        KnownRecord known = record.known();
        // Whoever says the same at once is ahead in one part and behind in the next: as long as the
        // record grows, nobody tries in vain.
        if (std::exchange(last, known.head.number) != known.head.number) in_vain = 0;
        auto facts = missing(known);
        if (!facts.ok()) return facts.status();
        if (facts->empty()) return known;
        Act act;
        act.device = speaker.device;
        act.author = speaker.author;
        act.device_time_us = now_us();
        act.seen = known.head.number;
        act.facts = *std::move(facts);
        act.whole = true;
        const auto outcome = record.act(act);
        if (again(outcome) && ++in_vain < RecordKeeper::most_tries) continue;
        if (!outcome.ok()) return outcome.status();
        if (outcome->fate == Outcome::Fate::overtaken) break;
    }
    return Status::failed(StatusCode::exhausted, "others keep acting on the same",
                          "try again in a moment");
}

}  // namespace courthand::server::tournament
