// Arbitrary facts under an arbitrary profile: the judge neither crashes nor loses its laws.
#include <cstdint>
#include <cstdlib>
#include <vector>

#include "courthand/rules/judge.h"
#include "fact_from_bytes.h"

namespace {

using namespace courthand;

void require(bool holds) {
    if (!holds) std::abort();
}

void check_state(const Rules& rules, const MatchState& state) {
    require(state.standing_count <= most_standing);
    for (const Verdict& v : standing(rules, state)) {
        require(v.phase == Phase::armed || v.phase == Phase::open);
        require(!describe(v.reason).word.empty());
        // Only a match that was given up keeps verdicts of sets that are no longer looked at.
        require(v.set == state.set.number || state.forfeited != 0);
    }
    static_cast<void>(next_step(rules, state));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    constexpr std::size_t most_facts = 400;
    fuzz::Bytes bytes{{data, size}};
    static const std::vector<std::string> ids = profile_ids();
    const Rules& rules = find_profile(ids[bytes.below(static_cast<unsigned>(ids.size()))])->rules;
    const std::size_t cut = bytes.take();
    MatchState state{};
    MatchState from_cut{};
    VerdictList raised;
    std::vector<Entry> rest;
    for (std::size_t i = 0; i < most_facts && !bytes.empty(); ++i) {
        const Entry entry{static_cast<EntryNumber>(i + 1), fuzz::fact_from(bytes)};
        if (i == cut) from_cut = state;
        if (i >= cut) rest.push_back(entry);
        apply(rules, state, entry, raised);
        check_state(rules, state);
    }
    if (!rest.empty()) require(fold(rules, rest, from_cut) == state);
    return 0;
}
