#include "screen_hand.h"

#include <QDir>
#include <QImage>
#include <QPointingDevice>
#include <QTest>

namespace courthand::client::test {

namespace {

/// Longer than any movement of the screen, so that a picture shows the end of it.
constexpr int rest_ms = 180;
constexpr int frame_ms = 20;
constexpr int patience_ms = 3000;
/// Longer than the platform's press-and-hold.
constexpr int hold_ms = 1100;

bool shown(const QQuickItem& item) {
    return item.isVisible() && item.width() > 0 && item.height() > 0;
}

QQuickItem* search(QQuickItem& at, const QString& name) {
    if (at.objectName() == name && shown(at)) return &at;
    // The topmost first: a sheet lies over the page.
    const QList<QQuickItem*> children = at.childItems();
    for (auto child = children.rbegin(); child != children.rend(); ++child) {
        if (!(*child)->isVisible()) continue;
        if (QQuickItem* found = search(**child, name)) return found;
    }
    return nullptr;
}

void collect(QQuickItem& at, std::vector<QQuickItem*>& out) {
    if (at.metaObject()->indexOfSignal("clicked()") >= 0 && shown(at) && at.isEnabled())
        out.push_back(&at);
    for (QQuickItem* child : at.childItems())
        if (child->isVisible()) collect(*child, out);
}

QPointingDevice* finger() {
    static QPointingDevice* device = QTest::createTouchDevice();
    return device;
}

QPoint centre(const QQuickItem& item) {
    return item.mapToScene({item.width() / 2, item.height() / 2}).toPoint();
}

}  // namespace

ScreenHand::ScreenHand(QQuickWindow& window) : window_{window} {}

QQuickItem* ScreenHand::find(const QString& name) const {
    return search(*window_.contentItem(), name);
}

QQuickItem* ScreenHand::await(const QString& name) const {
    for (int waited = 0; waited < patience_ms; waited += 20) {
        if (QQuickItem* item = find(name)) return item;
        QTest::qWait(20);
    }
    return nullptr;
}

QString ScreenHand::text(const QString& name) const {
    const QQuickItem* item = find(name);
    if (item == nullptr) return {};
    const QVariant text = item->property("text");
    return text.isValid() ? text.toString() : item->property("word").toString();
}

std::vector<QQuickItem*> ScreenHand::touchables() const {
    std::vector<QQuickItem*> items;
    collect(*window_.contentItem(), items);
    return items;
}

QQuickItem* ScreenHand::ready(const QString& name) const {
    if (await(name) == nullptr) return nullptr;
    // A frame for the layout, so that it is touched where it is seen.
    QTest::qWait(frame_ms);
    QQuickItem* item = find(name);
    return item != nullptr && item->isEnabled() ? item : nullptr;
}

bool ScreenHand::touch(const QString& name) {
    QQuickItem* item = ready(name);
    if (item == nullptr) return false;
    QTest::touchEvent(&window_, finger()).press(0, centre(*item), &window_);
    QTest::touchEvent(&window_, finger()).release(0, centre(*item), &window_);
    QTest::qWait(1);
    return true;
}

bool ScreenHand::click(const QString& name) {
    QQuickItem* item = ready(name);
    if (item == nullptr) return false;
    QTest::mouseClick(&window_, Qt::LeftButton, Qt::NoModifier, centre(*item));
    return true;
}

bool ScreenHand::hold(const QString& name) {
    QQuickItem* item = ready(name);
    if (item == nullptr) return false;
    const QPoint at = centre(*item);
    QTest::mousePress(&window_, Qt::LeftButton, Qt::NoModifier, at);
    QTest::qWait(hold_ms);
    QTest::mouseRelease(&window_, Qt::LeftButton, Qt::NoModifier, at);
    return true;
}

void ScreenHand::key(Qt::Key key, Qt::KeyboardModifiers modifiers) {
    QTest::keyClick(&window_, key, modifiers);
}

void ScreenHand::hold(Qt::Key key, int repeats, Qt::KeyboardModifiers modifiers) {
    // A printing key carries its character, as from a keyboard.
    const QString text =
        key < Qt::Key_Escape ? QString{QChar{static_cast<char16_t>(key)}} : QString{};
    const auto send = [&](QEvent::Type type, bool repeated) {
        if (type == QEvent::KeyPress &&
            qt_sendShortcutOverrideEvent(&window_, 0, key, modifiers, text, repeated))
            return;
        qt_handleKeyEvent(&window_, type, key, modifiers, text, repeated);
        QCoreApplication::processEvents();
    };
    send(QEvent::KeyPress, false);
    for (int i = 0; i < repeats; ++i) {
        send(QEvent::KeyRelease, true);
        send(QEvent::KeyPress, true);
    }
    send(QEvent::KeyRelease, false);
}

void ScreenHand::type(const QString& figures) {
    for (const QChar figure : figures) key(static_cast<Qt::Key>(Qt::Key_0 + figure.digitValue()));
}

void ScreenHand::settle() const {
    QTest::qWait(rest_ms);
}

void ScreenHand::picture(const QString& name) {
    const QString folder = qEnvironmentVariable("COURTHAND_ARTEFACTS");
    if (folder.isEmpty()) return;
    settle();
    QDir{}.mkpath(folder);
    window_.grabWindow().save(folder + QLatin1Char('/') + name + QStringLiteral(".png"));
}

}  // namespace courthand::client::test
