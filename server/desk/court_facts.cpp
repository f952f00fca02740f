#include "server/desk/court_facts.h"

namespace courthand::server::desk {

std::vector<event::Said> court_facts(const event::TournamentState& state, const Court& court) {
    const auto number = static_cast<std::uint16_t>(court.number);
    const auto known = state.courts.find(number);
    if (known != state.courts.end() && (court.name.empty() || known->second.name == court.name))
        return {};
    return {{event::CourtOpened{number, court.name, {}, {}, {}}, {}}};
}

}  // namespace courthand::server::desk
