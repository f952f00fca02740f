// What people do about alerts: durable before it is answered.
#include <utility>

#include "server/venue/alert_message.h"
#include "server/venue/ruling_notice.h"
#include "server/venue/venue_keeper.h"

namespace courthand::server::venue {

using alerts::AlertBook;
using alerts::Now;

VenueKeeper::Act VenueKeeper::act(const std::string& id, const Decide& decide) {
    const std::scoped_lock lock{writers_};
    const Now now = clock_();
    KeptBook::Act acted = alerts_.act(
        id, [&](const AlertBook& book) { return decide(book, now); }, notices_of, now);
    renew_board(now);
    if (auto* refusal = std::get_if<alerts::ActRefusal>(&acted)) return *std::move(refusal);
    if (auto* status = std::get_if<Status>(&acted)) return *std::move(status);
    return to_message(std::get<alerts::Alert>(acted));
}

VenueKeeper::Act VenueKeeper::claim(const std::string& id, const std::string& by) {
    return act(id, [&](const AlertBook& book, const Now& now) { return book.claim(id, by, now); });
}

VenueKeeper::Act VenueKeeper::acknowledge(const std::string& id, const std::string& by) {
    return act(
        id, [&](const AlertBook& book, const Now& now) { return book.acknowledge(id, by, now); });
}

VenueKeeper::Act VenueKeeper::rule(const std::string& id, bool accept, const std::string& note,
                                   const std::string& by) {
    return act(id, [&](const AlertBook& book, const Now& now) {
        return book.rule(id, accept, note, by, now);
    });
}

VenueKeeper::Act VenueKeeper::shelve(const std::string& id, std::chrono::minutes time,
                                     const std::string& note, const std::string& by) {
    return act(id, [&](const AlertBook& book, const Now& now) {
        return book.shelve(id, time, note, by, now);
    });
}

}  // namespace courthand::server::venue
