#include "glass_faults.h"

#include <QFontMetricsF>
#include <QQuickItem>
#include <cmath>
#include <vector>

namespace courthand::client::test {

namespace {

/// Edges lie on whole pixels, glyphs do not.
constexpr double rounding = 1.0;

QRectF frame(const QQuickItem& item) {
    return item.mapRectToScene({0, 0, item.width(), item.height()});
}

bool shown(const QQuickItem& item) {
    return item.isVisible() && item.width() > 0 && item.height() > 0 && item.opacity() > 0;
}

bool touchable(const QQuickItem& item) {
    return item.metaObject()->indexOfSignal("clicked()") >= 0 && item.isEnabled();
}

bool is_text(const QQuickItem& item) {
    return item.inherits("QQuickText") && !item.property("text").toString().trimmed().isEmpty();
}

/// What all lists and pages around it let through.
QRectF in_sight(const QQuickItem& item, QRectF window) {
    for (const QQuickItem* at = item.parentItem(); at != nullptr; at = at->parentItem())
        if (at->clip()) window &= frame(*at);
    return window;
}

/// It scrolls, so that what is half in sight comes wholly into it.
bool scrolls(const QQuickItem& item) {
    for (const QQuickItem* at = item.parentItem(); at != nullptr; at = at->parentItem())
        if (at->inherits("QQuickFlickable") &&
            at->property("contentHeight").toDouble() > at->height() + rounding)
            return true;
    return false;
}

/// The glyphs of a text, without the air that a line has above and below them.
QRectF ink(const QQuickItem& text) {
    const QFontMetricsF metrics(text.property("font").value<QFont>());
    const double width = text.property("contentWidth").toDouble();
    const double height = text.property("contentHeight").toDouble();
    const int across = text.property("effectiveHorizontalAlignment").toInt();
    const int down = text.property("verticalAlignment").toInt();
    const double x = across == Qt::AlignRight     ? text.width() - width
                     : across == Qt::AlignHCenter ? (text.width() - width) / 2
                                                  : 0;
    const double y = down == Qt::AlignBottom    ? text.height() - height
                     : down == Qt::AlignVCenter ? (text.height() - height) / 2
                                                : 0;
    const double air = metrics.ascent() - metrics.capHeight();
    return text.mapRectToScene({x, y + air, width, height - air - metrics.descent()});
}

QString named(const QQuickItem& item) {
    const QString text = item.property("text").toString();
    for (const QQuickItem* at = &item; at != nullptr; at = at->parentItem())
        if (!at->objectName().isEmpty())
            return at == &item || text.isEmpty()
                       ? at->objectName()
                       : QStringLiteral("\"%1\" in %2").arg(text, at->objectName());
    return QStringLiteral("\"%1\"").arg(text);
}

QString place(const QRectF& at) {
    return QStringLiteral("%1 x %2 at %3, %4")
        .arg(at.width(), 0, 'f', 0)
        .arg(at.height(), 0, 'f', 0)
        .arg(at.x(), 0, 'f', 0)
        .arg(at.y(), 0, 'f', 0);
}

bool meet(const QRectF& a, const QRectF& b) {
    const QRectF both = a & b;
    return both.width() > rounding && both.height() > rounding;
}

struct Found {
    std::vector<const QQuickItem*> touchables;
    std::vector<const QQuickItem*> texts;
};

void collect(const QQuickItem& at, Found& found) {
    if (!at.isVisible() || at.opacity() <= 0) return;
    if (shown(at) && touchable(at)) found.touchables.push_back(&at);
    if (shown(at) && is_text(at)) found.texts.push_back(&at);
    for (const QQuickItem* child : at.childItems()) collect(*child, found);
}

/// The page of the sheet that lies on top, or the whole window.
const QQuickItem& topmost(const QQuickWindow& window) {
    const QQuickItem* top = window.contentItem();
    double height = -1;
    std::vector<const QQuickItem*> items{window.contentItem()};
    while (!items.empty()) {
        const QQuickItem* item = items.back();
        items.pop_back();
        if (!item->isVisible()) continue;
        if (item->inherits("QQuickPopupItem") && shown(*item) && item->z() > height) {
            top = item;
            height = item->z();
        }
        for (const QQuickItem* child : item->childItems()) items.push_back(child);
    }
    return *top;
}

bool holds(const QQuickItem& outer, const QQuickItem& inner) {
    return &outer == &inner || outer.isAncestorOf(&inner);
}

void check_touchables(const std::vector<const QQuickItem*>& items, const QRectF& page, double least,
                      QStringList& faults) {
    for (std::size_t i = 0; i < items.size(); ++i) {
        const QQuickItem& item = *items[i];
        const QRectF at = frame(item);
        const QRectF sight = in_sight(item, page);
        if (std::min(at.width(), at.height()) < least - 0.5)
            faults << QStringLiteral("%1 is small: %2").arg(named(item), place(at));
        const bool whole = sight.adjusted(-rounding, -rounding, rounding, rounding).contains(at);
        if (!whole && !scrolls(item))
            faults << QStringLiteral("%1 is not wholly in sight: %2").arg(named(item), place(at));
        for (std::size_t k = i + 1; k < items.size(); ++k) {
            const QQuickItem& other = *items[k];
            if (holds(item, other) || holds(other, item)) continue;
            if (meet(at & sight, frame(other) & in_sight(other, page)))
                faults << QStringLiteral("%1 and %2 lie on one another")
                              .arg(named(item), named(other));
        }
    }
}

void check_texts(const std::vector<const QQuickItem*>& items, const QRectF& page,
                 const QStringList& may_be_cut, QStringList& faults) {
    for (std::size_t i = 0; i < items.size(); ++i) {
        const QQuickItem& item = *items[i];
        const QString words = item.property("text").toString();
        const QRectF sight = in_sight(item, page);
        const QRectF at = ink(item);
        const bool wider = item.property("contentWidth").toDouble() > item.width() + 2 * rounding &&
                           item.property("elide").toInt() == Qt::ElideNone &&
                           item.property("wrapMode").toInt() != 0;
        if ((item.property("truncated").toBool() || wider) && !may_be_cut.contains(words))
            faults << QStringLiteral("%1 is cut").arg(named(item));
        if (!sight.adjusted(-rounding, -rounding, rounding, rounding).contains(at) &&
            !scrolls(item))
            faults << QStringLiteral("%1 is not wholly in sight: %2").arg(named(item), place(at));
        for (std::size_t k = i + 1; k < items.size(); ++k)
            if (meet(at & sight, ink(*items[k]) & in_sight(*items[k], page)))
                faults << QStringLiteral("%1 runs into %2").arg(named(item), named(*items[k]));
    }
}

}  // namespace

QStringList glass_faults(const QQuickWindow& window, const GlassFaults& wanted) {
    const QRectF page{0, 0, static_cast<double>(window.width()),
                      static_cast<double>(window.height())};
    Found found;
    collect(topmost(window), found);
    QStringList faults;
    check_touchables(found.touchables, page, wanted.least_touch, faults);
    check_texts(found.texts, page, wanted.may_be_cut, faults);
    return faults;
}

QStringList text_faults(const QQuickItem& root, const QStringList& may_be_cut) {
    Found found;
    collect(root, found);
    QStringList faults;
    check_texts(found.texts, frame(root), may_be_cut, faults);
    return faults;
}

}  // namespace courthand::client::test
