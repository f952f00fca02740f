#include "place_page.h"

#include <algorithm>

#include "courthand/event/ending.h"
#include "event_words.h"
#include "place_rows.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

/// On the page at once; the work list has all of them.
constexpr qsizetype most_told = 4;

}  // namespace

PlacePage::PlacePage(const venue::EventBook& book, QObject* parent)
    : QObject(parent),
      book_(book),
      rows_({QStringLiteral("key"), QStringLiteral("place"), QStringLiteral("name"),
             QStringLiteral("detail"), QStringLiteral("held"), QStringLiteral("mark"),
             QStringLiteral("state")}) {}

void PlacePage::show(event::DivisionIndex division) {
    division_ = division;
    const event::TournamentState& state = *book_.state;
    words_.clear();
    event_words_.clear();
    undecided_.clear();
    if (division < state.division_count()) {
        const event::DivisionEnd end = event::division_end(state, division);
        rows_.show(place_rows(state, division, end));
        const MarkedWord own = division_ending(state, division, end);
        words_ = own.word;
        mark_ = static_cast<int>(own.mark);
        const MarkedWord whole = event_ending(state);
        // Of one division that is not over, its own sentence says all.
        if (state.division_count() > 1 || event::event_over(state)) event_words_ = whole.word;
        event_mark_ = static_cast<int>(whole.mark);
        for (const auto& fault : end.undecided)
            if (undecided_.size() < most_told) undecided_ << client::fault_words(fault);
    } else {
        rows_.show({});
    }
    Q_EMIT shown();
    if (!looked_.isEmpty()) tell(looked_);
}

bool PlacePage::look(const QString& key) {
    if (rows_.rowOf(key) < 0) return false;
    looked_ = key;
    tell(key);
    return true;
}

void PlacePage::tell(const QString& key) {
    const event::TournamentState& state = *book_.state;
    reasons_.clear();
    const int row = rows_.rowOf(key);
    title_ = rows_.field(row, QStringLiteral("name")).toString();
    const bool known = row >= 0 && division_ < state.division_count();
    const auto places =
        known ? event::places_held(state, division_) : std::vector<event::PlaceHeld>{};
    const auto place = std::find_if(places.begin(), places.end(), [&](const auto& each) {
        return place_key(state, division_, each) == key;
    });
    if (place != places.end()) {
        const event::Division& division = state.divisions[division_];
        title_ =
            (place->pool
                 ? tr("Place %1 of pool %2: %3")
                       .arg(place_number(*place), text(division.pools[*place->pool].name), title_)
                 : tr("Place %1 of %2: %3")
                       .arg(place_number(*place), text(division.rules.division), title_));
        for (const auto& line : event::why_held(state, division_, *place)) reasons_ << text(line);
    } else {
        reasons_ << (known ? tr("The team has left and holds no place.")
                           : tr("This place is not there any more."));
    }
    Q_EMIT looked();
}

}  // namespace courthand::seats
