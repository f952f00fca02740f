// Test programs of screens share this start: one application, the style pinned, a real font.
#include <gtest/gtest.h>

#include <QtQml/qqmlextensionplugin.h>
#include <QAccessible>
#include <QGuiApplication>
#include <QQuickStyle>

Q_IMPORT_QML_PLUGIN(Courthand_DesignPlugin)
Q_IMPORT_QML_PLUGIN(SEAT_PLUGIN)

int main(int argc, char** argv) {
    ::testing::InitGoogleTest(&argc, argv);
    QQuickStyle::setStyle(QStringLiteral("Basic"));
    QGuiApplication app(argc, argv);
    QAccessible::setActive(true);
    return RUN_ALL_TESTS();
}
