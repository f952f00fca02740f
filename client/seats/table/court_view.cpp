#include "court_view.h"

#include <QStringList>

namespace courthand::client {

namespace {

/// By the number of the box on the sheet: L and R alone would be read as the sides of the court.
QString box_word(std::size_t box) {
    return QCoreApplication::translate("CourtView", "L%1").arg(box + 1);
}

}  // namespace

const Option* Choice::with(Jersey other) const noexcept {
    for (const Option& option : options) {
        const auto* replacement = std::get_if<LiberoReplacement>(&option.fact);
        if (replacement == nullptr) continue;
        if ((replacement->in == jersey && replacement->out == other) ||
            (replacement->out == jersey && replacement->in == other))
            return &option;
    }
    return nullptr;
}

Jersey replaced_by(const TeamSet& team, Jersey libero) noexcept {
    if (!libero.worn()) return Jersey::none();
    for (const SlotRecord& slot : team.slots)
        if (slot.on_court == libero) return slot.replaced;
    return Jersey::none();
}

Jersey beside(const TeamSet& team, std::size_t box) noexcept {
    const Jersey libero = team.liberos[box];
    for (const SlotRecord& slot : team.slots)
        if (libero.worn() && slot.on_court == libero) return slot.replaced;
    return libero;
}

void CourtView::offer(FloorTile& tile, Team team, Jersey jersey) const {
    if (!choice_.made() || choice_.team != team) return;
    Offer offer = Offer::idle;
    if (jersey == choice_.jersey) {
        offer = Offer::chosen;
    } else if (const Option* option = choice_.with(jersey)) {
        offer = option->legal ? Offer::legal : Offer::barred;
        if (!option->legal) tile.why_not = Wording::brief(option->reason);
    }
    tile.offer = static_cast<int>(offer);
}

std::vector<FloorTile> CourtView::places(Team team, unsigned ticked) const {
    const TeamSet& set = state_.set.team[team];
    const Six six = on_court(set);
    std::vector<FloorTile> tiles;
    for (const Position p : all_positions) {
        const Jersey jersey = six[index(p)];
        const Slot slot = set.rotation.slot_at(p);
        const bool libero = acts_as_libero(set, jersey);
        const bool captain = jersey.worn() && jersey == set.game_captain;
        const bool serving = p == Position::I && state_.set.serving == team;
        FloorTile tile;
        tile.number = Wording::number(jersey);
        tile.numeral = Wording::roman(p);
        tile.captain = captain;
        tile.libero = libero;
        tile.serving = serving;
        tile.triangle = set.serving_slot == index(slot) + 1;
        QStringList spoken{
            QCoreApplication::translate("CourtView", "position %1").arg(Wording::roman(p)),
            Wording::number(jersey)};
        if (captain) spoken << QCoreApplication::translate("CourtView", "captain");
        if (libero) {
            const QString other = Wording::number(replaced_by(set, jersey));
            tile.footnote = QCoreApplication::translate("CourtView", "%1 for %2")
                                .arg(box_word(jersey == set.liberos[1] ? 1 : 0),
                                     other.isEmpty() ? QStringLiteral("–") : other);
            spoken << QCoreApplication::translate("CourtView", "libero for %1").arg(other);
        } else if ((ticked >> index(p)) & 1U) {
            tile.footnote = QCoreApplication::translate("CourtView", "✓ seen");
        } else if (serving) {
            tile.footnote = QCoreApplication::translate("CourtView", "serves");
        }
        spoken << wording_.team(team);
        tile.spoken = spoken.join(QStringLiteral(", "));
        offer(tile, team, jersey);
        tiles.push_back(tile);
    }
    return tiles;
}

std::vector<FloorTile> CourtView::liberos(Team team) const {
    const TeamSet& set = state_.set.team[team];
    std::vector<FloorTile> tiles;
    for (std::size_t box = 0; box < libero_boxes; ++box) {
        const Jersey libero = set.liberos[box];
        FloorTile tile;
        if (libero.worn()) {
            const Jersey here = beside(set, box);
            const bool away = here != libero;
            const PlayerRecord* record = find(state_.team[team], libero);
            const bool unable = record != nullptr && record->libero_unable != 0;
            tile.number = Wording::number(here);
            tile.libero = !away;
            tile.away = away;
            tile.numeral = away ? QString() : box_word(box);
            tile.footnote = away ? QCoreApplication::translate("CourtView", "off for %1")
                                       .arg(Wording::number(libero))
                            : unable ? QCoreApplication::translate("CourtView", "unable")
                                     : QCoreApplication::translate("CourtView", "libero");
            tile.spoken =
                (away ? QCoreApplication::translate("CourtView", "%1, off for libero %2, %3")
                            .arg(Wording::number(here), Wording::number(libero))
                      : QCoreApplication::translate("CourtView", "libero %1, beside the court, %2")
                            .arg(Wording::number(libero)))
                    .arg(wording_.team(team));
            offer(tile, team, here);
        }
        tiles.push_back(tile);
    }
    return tiles;
}

}  // namespace courthand::client
