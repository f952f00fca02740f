// A hand on the screen: finds what is shown by its object name and touches it as a person would.
#pragma once

#include <QQuickItem>
#include <QQuickWindow>
#include <QString>
#include <Qt>
#include <vector>

namespace courthand::client::test {

class ScreenHand {
  public:
    explicit ScreenHand(QQuickWindow& window);

    /// The visible item of that name, or null.
    [[nodiscard]] QQuickItem* find(const QString& name) const;
    /// As `find`, after a moment for what is still opening; null when it does not come.
    [[nodiscard]] QQuickItem* await(const QString& name) const;
    [[nodiscard]] bool shows(const QString& name) const { return find(name) != nullptr; }
    [[nodiscard]] QString text(const QString& name) const;
    /// Everything visible that takes part in touch: the items with an `onClicked`.
    [[nodiscard]] std::vector<QQuickItem*> touchables() const;

    /// False when there is no such item, or it cannot be touched now.
    bool touch(const QString& name);
    bool click(const QString& name);
    bool hold(const QString& name);
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier);
    /// A key held down: one press, so many repeats of the keyboard, one release.
    void hold(Qt::Key key, int repeats, Qt::KeyboardModifiers modifiers = Qt::NoModifier);
    void type(const QString& figures);
    /// Lets the screen come to rest.
    void settle() const;
    /// Saves a picture under $COURTHAND_ARTEFACTS; does nothing when that is not set.
    void picture(const QString& name);

  private:
    [[nodiscard]] QQuickItem* ready(const QString& name) const;

    QQuickWindow& window_;
};

}  // namespace courthand::client::test
