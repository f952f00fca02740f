// The filled shape of a state: ◆ fault, ▲ caution, ■ notice, ● good, ○ quiet. Many rows have one,
// so it is drawn here: a canvas of QML asks its script for each of them.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QColor>
#include <QQuickPaintedItem>

namespace courthand::design {

class StateShape : public QQuickPaintedItem {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(int kind READ kind WRITE setKind NOTIFY changed)
    Q_PROPERTY(QColor fill READ fill WRITE setFill NOTIFY changed)
    Q_PROPERTY(QColor edge READ edge WRITE setEdge NOTIFY changed)

  public:
    /// In the order of `StateMark.Kind`.
    enum class Kind { fault, caution, notice, good, quiet };

    explicit StateShape(QQuickItem* parent = nullptr);

    [[nodiscard]] int kind() const { return static_cast<int>(kind_); }
    [[nodiscard]] QColor fill() const { return fill_; }
    [[nodiscard]] QColor edge() const { return edge_; }
    /// A number that is no kind is quiet.
    void setKind(int kind);
    void setFill(const QColor& fill);
    void setEdge(const QColor& edge);

    void paint(QPainter* painter) override;

  Q_SIGNALS:
    void changed();

  private:
    void renew();

    Kind kind_ = Kind::quiet;
    QColor fill_;
    QColor edge_;
};

}  // namespace courthand::design
