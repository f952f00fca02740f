#include "venue/match_names.h"

#include "wire/uuid.h"

namespace courthand::venue {

MatchNames::MatchNames(const event::TournamentState& state) {
    for (const auto& [name, ref] : state.match_names)
        if (const event::RecordId record = state.match(ref).record; record.given())
            names_.emplace(wire::Uuid{record.bytes}.to_text(), name);
}

std::optional<std::string> MatchNames::of(const Id& record) const {
    const auto found = names_.find(record);
    return found == names_.end() ? std::nullopt : std::optional{found->second};
}

}  // namespace courthand::venue
