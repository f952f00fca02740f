#include "state_shape.h"

#include <QPainter>
#include <QPen>
#include <algorithm>

namespace courthand::design {

namespace {

/// Corners of a diamond in a square of that width, as far from its border as the line is thick.
QPolygonF diamond(qreal width, qreal line) {
    return {{{width / 2, line},
             {width - line, width / 2},
             {width / 2, width - line},
             {line, width / 2}}};
}

QPolygonF triangle(qreal width, qreal line) {
    return {{{width / 2, width * 0.1}, {width - line, width * 0.88}, {line, width * 0.88}}};
}

}  // namespace

StateShape::StateShape(QQuickItem* parent) : QQuickPaintedItem(parent) {
    setAntialiasing(true);
}

void StateShape::setKind(int kind) {
    const bool known = kind >= 0 && kind <= static_cast<int>(Kind::quiet);
    const Kind wanted = known ? static_cast<Kind>(kind) : Kind::quiet;
    if (wanted == kind_) return;
    kind_ = wanted;
    renew();
}

void StateShape::setFill(const QColor& fill) {
    if (fill == fill_) return;
    fill_ = fill;
    renew();
}

void StateShape::setEdge(const QColor& edge) {
    if (edge == edge_) return;
    edge_ = edge;
    renew();
}

void StateShape::renew() {
    update();
    Q_EMIT changed();
}

void StateShape::paint(QPainter* painter) {
    const qreal size = width();
    const qreal line = std::max(1.5, size * 0.07);
    painter->setPen(QPen{edge_, line, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin});
    painter->setBrush(kind_ == Kind::quiet ? QBrush{} : QBrush{fill_});
    switch (kind_) {
        case Kind::fault:
            painter->drawPolygon(diamond(size, line));
            break;
        case Kind::caution:
            painter->drawPolygon(triangle(size, line));
            break;
        case Kind::notice:
            painter->drawRect(QRectF{size * 0.14, size * 0.14, size * 0.72, size * 0.72});
            break;
        case Kind::good:
        case Kind::quiet:
            painter->drawEllipse(QRectF{size * 0.12, size * 0.12, size * 0.76, size * 0.76});
            break;
    }
}

}  // namespace courthand::design
