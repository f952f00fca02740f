#include "server/domain/match_snapshot.h"

#include <cstring>

#include "courthand/rules/judge.h"
#include "courthand/rules/profile.h"
#include "courthand/v1/snapshot.pb.h"
#include "server/domain/program_fingerprint.h"
#include "wire/signers.h"

namespace courthand::server {
namespace {

void keep(const TeamWords& words, v1::TeamWordsKept& out) {
    out.set_name(words.name);
    out.set_club(words.club);
    out.set_colour(words.colour);
}

TeamWords words_of(const v1::TeamWordsKept& kept) {
    return {kept.name(), kept.club(), kept.colour()};
}

std::optional<MatchState> state_of(const v1::MatchFolded& folded) {
    MatchState state{};
    if (folded.state().size() != sizeof state) return std::nullopt;
    std::memcpy(&state, folded.state().data(), sizeof state);
    if (state_hash(state) != folded.state_hash()) return std::nullopt;
    return state;
}

bool fits(const StoredMatch& match, const MatchSnapshot& snapshot) {
    return !program_fingerprint().empty() && snapshot.form == program_fingerprint() &&
           snapshot.last == match.head.last && snapshot.hash == match.head.hash;
}

}  // namespace

std::optional<MatchSnapshot> snapshot_of(const LiveMatch& match, const SnapshotParts& parts) {
    if (program_fingerprint().empty()) return std::nullopt;
    v1::MatchFolded folded;
    folded.set_state(&match.state, sizeof match.state);
    folded.set_state_hash(state_hash(match.state));
    folded.set_profile_id(match.plan.profile);
    folded.set_last_entry_ticks(match.last_entry_at.time_since_epoch().count());
    folded.set_closed_ticks(match.closed_at.time_since_epoch().count());
    wire::to_proto(match.signed_by, *folded.mutable_signed_by());
    folded.set_protested(match.protested);
    folded.set_unreadable(match.unreadable);
    keep(match.words.a, *folded.mutable_a());
    keep(match.words.b, *folded.mutable_b());
    for (const auto& [name, bytes] : parts) (*folded.mutable_parts())[name] = bytes;
    return MatchSnapshot{match.key.match, match.head.last, match.head.hash, program_fingerprint(),
                         folded.SerializeAsString()};
}

std::optional<RestoredMatch> restored_match(const StoredMatch& match,
                                            const MatchSnapshot& snapshot) {
    v1::MatchFolded folded;
    if (!fits(match, snapshot) || !folded.ParseFromString(snapshot.bytes)) return std::nullopt;
    const auto state = state_of(folded);
    if (!state || folded.profile_id() != match.plan.profile) return std::nullopt;
    RestoredMatch restored;
    LiveMatch& live = restored.live;
    live.key = match.plan.key;
    live.plan = match.plan;
    live.head = match.head;
    live.asked = match.asked;
    live.branches = match.branches;
    live.profile = find_profile(match.plan.profile);
    live.state = *state;
    if (live.profile != nullptr) live.standing = standing(live.profile->rules, live.state);
    live.signed_by = wire::signers_of(folded.signed_by());
    live.protested = folded.protested();
    live.words = {words_of(folded.a()), words_of(folded.b())};
    live.unreadable = folded.unreadable();
    live.last_entry_at = ServerTime{ServerTime::duration{folded.last_entry_ticks()}};
    live.closed_at = ServerTime{ServerTime::duration{folded.closed_ticks()}};
    for (const auto& [name, bytes] : folded.parts()) restored.parts[name] = bytes;
    return restored;
}

}  // namespace courthand::server
