#include "screen.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QCoreApplication>
#include <QDir>
#include <QElapsedTimer>
#include <QKeyEvent>
#include <QTest>
#include <cmath>

namespace courthand::tests {

namespace {

constexpr int wait_ms = 5000;

// Popups stand under the overlay of the window, so the search starts at the window's root.
void each_item(QQuickItem* item, const std::function<void(QQuickItem&)>& visit) {
    if (item == nullptr || !item->isVisible()) return;
    visit(*item);
    for (QQuickItem* child : item->childItems()) each_item(child, visit);
}

/// The name of the nearest item around it that has one.
QString place_of(const QQuickItem& item) {
    for (const QQuickItem* at = &item; at != nullptr; at = at->parentItem())
        if (!at->objectName().isEmpty()) return at->objectName();
    return QStringLiteral("the window");
}

QPointingDevice& finger() {
    static QPointingDevice* const device = QTest::createTouchDevice();
    return *device;
}

double linear(double channel) {
    return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

double luminance(const QColor& colour) {
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

}  // namespace

double contrast(const QColor& a, const QColor& b) {
    const double x = luminance(a);
    const double y = luminance(b);
    return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

Screen::Screen(const QString& url, const QVariantMap& properties, int width, int height) {
    engine_.addImportPath(QStringLiteral("qrc:/qt/qml"));
    engine_.setInitialProperties(properties);
    engine_.load(QUrl(url));
    if (engine_.rootObjects().isEmpty()) {
        ADD_FAILURE() << "cannot load " << url.toStdString();
        return;
    }
    window_ = qobject_cast<QQuickWindow*>(engine_.rootObjects().constFirst());
    window_->resize(width, height);
    EXPECT_TRUE(QTest::qWaitForWindowExposed(window_));
    window_->requestActivate();
    EXPECT_TRUE(QTest::qWaitForWindowActive(window_));
    settle();
}

Screen::~Screen() = default;

void Screen::settle() {
    // Two turns of the event loop: layouts polish in the first, popups open in the second.
    for (int i = 0; i < 4; ++i) {
        QCoreApplication::sendPostedEvents();
        QCoreApplication::processEvents();
        QTest::qWait(10);
    }
}

bool Screen::wait(const std::function<bool()>& condition) {
    return QTest::qWaitFor(condition, wait_ms);
}

QQuickItem* Screen::peek(const QString& name) const {
    QQuickItem* found = nullptr;
    each_item(window_->contentItem(), [&](QQuickItem& item) {
        if (found == nullptr && item.objectName() == name) found = &item;
    });
    return found;
}

QQuickItem* Screen::find(const QString& name) {
    QQuickItem* item = nullptr;
    if (!wait([&] { return (item = peek(name)) != nullptr; })) {
        ADD_FAILURE() << "not on the screen: " << name.toStdString();
    }
    return item;
}

QString Screen::text_of(const QString& name) {
    QQuickItem* const item = find(name);
    if (item == nullptr) return {};
    const QVariant word = item->property("word");
    return word.isValid() ? word.toString() : item->property("text").toString();
}

QPoint Screen::centre(QQuickItem& item) const {
    return item.mapToScene(QPointF(item.width() / 2, item.height() / 2)).toPoint();
}

void Screen::click(const QString& name) {
    settle();
    QQuickItem* const item = find(name);
    ASSERT_NE(item, nullptr);
    QTest::mouseClick(window_, Qt::LeftButton, Qt::NoModifier, centre(*item));
    settle();
}

void Screen::touch(const QString& name) {
    settle();
    QQuickItem* const item = find(name);
    ASSERT_NE(item, nullptr);
    const QPoint at = centre(*item);
    QTest::touchEvent(window_, &finger()).press(1, at, window_);
    QTest::touchEvent(window_, &finger()).release(1, at, window_);
    settle();
}

void Screen::hold(Qt::Key key) {
    QKeyEvent again(QEvent::KeyPress, key, Qt::NoModifier, {}, true);
    QCoreApplication::sendEvent(window_, &again);
    settle();
}

void Screen::key(Qt::Key key, Qt::KeyboardModifiers modifiers) {
    QTest::keyClick(window_, key, modifiers);
    settle();
}

void Screen::type(const QString& name, const QString& text) {
    QQuickItem* const item = find(name);
    ASSERT_NE(item, nullptr);
    QQuickItem* input = item;
    each_item(item, [&](QQuickItem& inner) {
        if (inner.inherits("QQuickTextInput") || inner.inherits("QQuickTextEdit")) input = &inner;
    });
    input->forceActiveFocus();
    for (const QChar c : text) QTest::keyClick(window_, c.toLatin1());
    settle();
}

QImage Screen::picture(const QString& name) {
    settle();
    const QImage image = window_->grabWindow();
    const QString folder = qEnvironmentVariable("COURTHAND_ARTEFACTS");
    if (!folder.isEmpty()) {
        QDir().mkpath(folder);
        EXPECT_TRUE(image.save(folder + QLatin1Char('/') + name + QStringLiteral(".png")));
    }
    return image;
}

std::vector<Screen::Ink> Screen::inks() {
    const QImage image = window_->grabWindow();
    std::vector<Ink> found;
    each_item(window_->contentItem(), [&](QQuickItem& item) {
        if (!item.inherits("QQuickText")) return;
        const QString text = item.property("text").toString();
        if (text.trimmed().isEmpty() || item.width() <= 0 || !item.isEnabled()) return;
        // The paper shows in the corner of the first line, above the letters.
        const double inside = std::min(4.0, item.height() * 0.15);
        const QPoint corner = item.mapToScene(QPointF(0, inside)).toPoint();
        if (!image.rect().contains(corner)) return;
        found.push_back({text, item.property("color").value<QColor>(), image.pixelColor(corner),
                         item.property("font").value<QFont>().pixelSize() * 1.0});
    });
    return found;
}

QStringList Screen::cut() const {
    QStringList texts;
    each_item(window_->contentItem(), [&](QQuickItem& item) {
        if (!item.inherits("QQuickText") || item.property("text").toString().isEmpty()) return;
        constexpr double rounding = 1.0;
        const bool elided = item.property("truncated").toBool();
        const bool wider =
            item.property("paintedWidth").toDouble() > std::ceil(item.width()) + rounding;
        const bool outside =
            item.mapToScene(QPointF(item.width(), 0)).x() > window_->width() + rounding;
        if (elided || wider || outside)
            texts << item.property("text").toString() + QStringLiteral(" in ") + place_of(item);
    });
    return texts;
}

QStringList Screen::nameless() const {
    QStringList names;
    each_item(window_->contentItem(), [&](QQuickItem& item) {
        const bool takes_part = item.inherits("QQuickAbstractButton") || item.activeFocusOnTab();
        if (!takes_part || !item.isEnabled()) return;
        QAccessibleInterface* const face = QAccessible::queryAccessibleInterface(&item);
        if (face == nullptr || face->text(QAccessible::Name).trimmed().isEmpty()) {
            names << QString::fromLatin1(item.metaObject()->className()) + QLatin1Char(' ') +
                         item.objectName();
        }
    });
    return names;
}

}  // namespace courthand::tests
