#include "court_view.h"

#include <QStringList>

namespace courthand::client {

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

void CourtView::offer(QVariantMap& tile, Team team, Jersey jersey) const {
    if (!choice_.made() || choice_.team != team) return;
    Offer offer = Offer::idle;
    if (jersey == choice_.jersey) {
        offer = Offer::chosen;
    } else if (const Option* option = choice_.with(jersey)) {
        offer = option->legal ? Offer::legal : Offer::barred;
        if (!option->legal) tile[QStringLiteral("whyNot")] = Wording::brief(option->reason);
    }
    tile[QStringLiteral("offer")] = static_cast<int>(offer);
}

QVariantList CourtView::places(Team team, unsigned ticked) const {
    const TeamSet& set = state_.set.team[team];
    const Six six = on_court(set);
    QVariantList tiles;
    for (const Position p : all_positions) {
        const Jersey jersey = six[index(p)];
        const Slot slot = set.rotation.slot_at(p);
        const bool libero = acts_as_libero(set, jersey);
        const bool captain = jersey.worn() && jersey == set.game_captain;
        const bool serving = p == Position::I && state_.set.serving == team;
        QVariantMap tile;
        tile[QStringLiteral("number")] = Wording::number(jersey);
        tile[QStringLiteral("numeral")] = Wording::roman(p);
        tile[QStringLiteral("captain")] = captain;
        tile[QStringLiteral("libero")] = libero;
        tile[QStringLiteral("serving")] = serving;
        tile[QStringLiteral("triangle")] = set.serving_slot == index(slot) + 1;
        QStringList spoken{QCoreApplication::translate("CourtView", "position %1")
                               .arg(Wording::roman(p)),
                           Wording::number(jersey)};
        if (captain) spoken << QCoreApplication::translate("CourtView", "captain");
        if (libero) {
            const QString mark = jersey == set.liberos[1]
                                     ? QCoreApplication::translate("CourtView", "R for %1")
                                     : QCoreApplication::translate("CourtView", "L for %1");
            const QString other = Wording::number(replaced_by(set, jersey));
            tile[QStringLiteral("footnote")] =
                mark.arg(other.isEmpty() ? QStringLiteral("–") : other);
            spoken << QCoreApplication::translate("CourtView", "libero for %1").arg(other);
        } else if ((ticked >> index(p)) & 1U) {
            tile[QStringLiteral("footnote")] = QCoreApplication::translate("CourtView", "✓ seen");
        } else if (serving) {
            tile[QStringLiteral("footnote")] = QCoreApplication::translate("CourtView", "serves");
        }
        spoken << wording_.team(team);
        tile[QStringLiteral("spoken")] = spoken.join(QStringLiteral(", "));
        offer(tile, team, jersey);
        tiles << tile;
    }
    return tiles;
}

QVariantList CourtView::liberos(Team team) const {
    const TeamSet& set = state_.set.team[team];
    QVariantList tiles;
    for (std::size_t box = 0; box < libero_boxes; ++box) {
        const Jersey libero = set.liberos[box];
        QVariantMap tile;
        if (libero.worn()) {
            const Jersey here = beside(set, box);
            const bool away = here != libero;
            const PlayerRecord* record = find(state_.team[team], libero);
            const bool unable = record != nullptr && record->libero_unable != 0;
            tile[QStringLiteral("number")] = Wording::number(here);
            tile[QStringLiteral("libero")] = !away;
            tile[QStringLiteral("away")] = away;
            tile[QStringLiteral("numeral")] =
                away ? QString() : box == 0 ? QStringLiteral("L") : QStringLiteral("R");
            tile[QStringLiteral("footnote")] =
                away     ? QCoreApplication::translate("CourtView", "off for %1")
                               .arg(Wording::number(libero))
                : unable ? QCoreApplication::translate("CourtView", "unable")
                         : QCoreApplication::translate("CourtView", "libero");
            tile[QStringLiteral("spoken")] =
                (away ? QCoreApplication::translate("CourtView", "%1, off for libero %2, %3")
                            .arg(Wording::number(here), Wording::number(libero))
                      : QCoreApplication::translate("CourtView", "libero %1, beside the court, %2")
                            .arg(Wording::number(libero)))
                    .arg(wording_.team(team));
            offer(tile, team, here);
        }
        tiles << tile;
    }
    return tiles;
}

}  // namespace courthand::client
