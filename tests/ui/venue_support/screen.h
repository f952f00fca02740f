// A window of a seat under test: finds items by name, touches, clicks, types, takes pictures.
#pragma once

#include <QGuiApplication>
#include <QPointingDevice>
#include <QQmlApplicationEngine>
#include <QQuickItem>
#include <QQuickWindow>
#include <QString>
#include <QVariantMap>
#include <functional>
#include <memory>

namespace courthand::tests {

class Screen {
  public:
    /// Loads a QML file of the program with the given properties; fails the test when it cannot.
    Screen(const QString& url, const QVariantMap& properties, int width, int height);
    ~Screen();

    [[nodiscard]] bool ready() const { return window_ != nullptr; }
    [[nodiscard]] QQuickWindow& window() { return *window_; }

    /// The first visible item of that object name; waits for it a little.
    [[nodiscard]] QQuickItem* find(const QString& name);
    /// As `find`, but nothing when it is not there now.
    [[nodiscard]] QQuickItem* peek(const QString& name) const;
    [[nodiscard]] QString text_of(const QString& name);

    void click(const QString& name);
    void touch(const QString& name);
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier);
    /// A key that is held: the press that comes again and again.
    void hold(Qt::Key key);
    void type(const QString& name, const QString& text);

    /// Runs the event loop until the condition holds; false when it never does.
    [[nodiscard]] static bool wait(const std::function<bool()>& condition);
    static void settle();

    /// Saves the window under $COURTHAND_ARTEFACTS, or nothing when that is not set.
    QImage picture(const QString& name);

    /// All texts that can be read now with their colour and the colour under them.
    struct Ink {
        QString text;
        QColor ink;
        QColor paper;
        double pixel_size = 0;
    };
    [[nodiscard]] std::vector<Ink> inks();
    /// Texts that can be seen but not read to their end: elided, or wider or taller than where they
    /// stand; each with the name of the item it stands in.
    [[nodiscard]] QStringList cut() const;
    /// Items that can be focused or pressed but have no accessible name.
    [[nodiscard]] QStringList nameless() const;

  private:
    [[nodiscard]] QPoint centre(QQuickItem& item) const;
    QQmlApplicationEngine engine_;
    QQuickWindow* window_ = nullptr;
};

/// Contrast of two colours as WCAG 2 defines it, 1 to 21.
[[nodiscard]] double contrast(const QColor& a, const QColor& b);

}  // namespace courthand::tests
