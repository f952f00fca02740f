#include "head_eyes.h"

#include <QTest>
#include <functional>

namespace courthand::client::test {

namespace {

/// Journal, push, commit, board and screen lie between the two seats; only a failure takes longer.
constexpr int patience_ms = 15000;

void each_shown(QQuickItem& item, const std::function<void(QQuickItem&)>& visit) {
    if (!item.isVisible()) return;
    visit(item);
    for (QQuickItem* child : item.childItems()) each_shown(*child, visit);
}

}  // namespace

QString libero_words_of(const TeamSet& team) {
    QStringList words;
    for (const Jersey jersey : on_court(team)) {
        if (!acts_as_libero(team, jersey)) continue;
        for (const SlotRecord& slot : team.slots)
            if (slot.on_court == jersey)
                words << QStringLiteral("L %1 for %2")
                             .arg(jersey.number())
                             .arg(slot.replaced.number());
    }
    return words.isEmpty() ? QStringLiteral("L off (") : words.join(QStringLiteral(" · "));
}

HeadEyes::HeadEyes(QQuickWindow& window, seats::HeadSeat& seat, int court)
    : window_{window},
      hand_{window},
      seat_{seat},
      card_{QStringLiteral("court%1").arg(court)},
      place_{QStringLiteral("Court %1").arg(court)} {}

QStringList HeadEyes::texts(const QString& under) const {
    QStringList found;
    QQuickItem* root = under.isEmpty() ? window_.contentItem() : hand_.find(under);
    if (root == nullptr) return found;
    each_shown(*root, [&](QQuickItem& item) {
        if (item.inherits("QQuickText")) found << item.property("text").toString();
    });
    return found;
}

bool HeadEyes::shows(const MatchState& state, Team team) const {
    const QStringList words = texts(card_);
    const int points = team == Team::A ? state.set.score.a : state.set.score.b;
    const bool over = state.set.stage == Stage::set_over || state.set.stage == Stage::match_over;
    const QString liberos = libero_words_of(state.set.team[team]);
    const bool liberos_told = over || !words.filter(liberos).isEmpty();
    // What can be read must also be what belongs to this team.
    const QQuickItem* card = hand_.find(card_);
    if (card == nullptr) return false;
    const QVariantMap told = card->property(team == Team::A ? "teamA" : "teamB").toMap();
    const auto is = [&](const char* what, int value) {
        return told.value(QLatin1String(what)).toString() == QString::number(value) &&
               words.contains(QString::number(value));
    };
    return liberos_told && is("points", points) && is("sets", state.team[team].sets_won) &&
           (over || told.value(QStringLiteral("liberos")).toString().startsWith(liberos));
}

bool HeadEyes::sees(const MatchState& state) {
    return QTest::qWaitFor([&] { return shows(state, Team::A) && shows(state, Team::B); },
                           patience_ms);
}

QString HeadEyes::row(const QString& title) const {
    const seats::AlertList& list = *seat_.alerts();
    for (int i = 0; i < list.rowCount(); ++i) {
        const QModelIndex at = list.index(i);
        if (list.data(at, seats::AlertList::TitleRole).toString() == title &&
            list.data(at, seats::AlertList::CourtRole).toString() == place_ &&
            !list.data(at, seats::AlertList::GoneRole).toBool())
            return list.idAt(i);
    }
    return {};
}

QString HeadEyes::sees_alert(const QString& title) {
    QString id;
    const auto read = [&] {
        id = row(title);
        return !id.isEmpty() && texts(QStringLiteral("alert-") + id).contains(title);
    };
    return QTest::qWaitFor(read, patience_ms) ? id : QString();
}

bool HeadEyes::sees_no_alert(const QString& title) {
    return QTest::qWaitFor([&] { return row(title).isEmpty(); }, patience_ms);
}

bool HeadEyes::rules_that_it_stands(const QString& alert_id, const QString& picture) {
    if (!press(QStringLiteral("alert-") + alert_id)) return false;
    if (hand_.await(QStringLiteral("going")) == nullptr) return false;
    hand_.picture(picture + QStringLiteral("-evidence"));
    if (!press(QStringLiteral("going")) || !press(QStringLiteral("ruling")) ||
        !press(QStringLiteral("choice0")))
        return false;
    hand_.picture(picture + QStringLiteral("-ruling"));
    return press(QStringLiteral("recordRuling"));
}

bool HeadEyes::settles_fork(const QString& alert_id, const QString& picture) {
    if (!press(QStringLiteral("alert-") + alert_id) || !press(QStringLiteral("lookAtFork")))
        return false;
    const auto read = [this] {
        return !hand_.text(QStringLiteral("forkSummary")).isEmpty() &&
               hand_.find(QStringLiteral("forkRow0")) != nullptr;
    };
    if (!QTest::qWaitFor(read, patience_ms)) return false;
    hand_.settle();
    hand_.picture(picture);
    return press(QStringLiteral("forkEnterAgain"));
}

bool HeadEyes::press(const QString& name) {
    const auto stands = [&] {
        const QQuickItem* item = hand_.find(name);
        return item != nullptr && item->isEnabled();
    };
    return QTest::qWaitFor(stands, patience_ms) && hand_.click(name);
}

}  // namespace courthand::client::test
