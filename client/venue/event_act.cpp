#include "venue/event_act.h"

#include <utility>

#include "venue/match_id.h"

namespace courthand::venue {

EventAct new_act(event::FactNumber seen, std::vector<event::Said> facts) {
    EventAct act;
    for (std::size_t i = 0; i < facts.size(); ++i) act.ids.push_back(new_match_id());
    act.facts = std::move(facts);
    act.seen = seen;
    return act;
}

std::vector<event::Fact> facts_of(const EventAct& act) {
    std::vector<event::Fact> facts;
    for (const event::Said& said : act.facts) facts.push_back(said.fact);
    return facts;
}

}  // namespace courthand::venue
