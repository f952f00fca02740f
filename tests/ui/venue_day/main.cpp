#include <gtest/gtest.h>

#include <QtQml/qqmlextensionplugin.h>
#include <QAccessible>
#include <QGuiApplication>
#include <QQuickStyle>

Q_IMPORT_QML_PLUGIN(Courthand_DesignPlugin)
Q_IMPORT_QML_PLUGIN(Courthand_DeskPlugin)
Q_IMPORT_QML_PLUGIN(Courthand_HeadPlugin)
Q_IMPORT_QML_PLUGIN(Courthand_TablePlugin)

int main(int argc, char** argv) {
    QGuiApplication app{argc, argv};
    QQuickStyle::setStyle(QStringLiteral("Basic"));
    QAccessible::setActive(true);
    testing::InitGoogleTest(&argc, argv);
    return RUN_ALL_TESTS();
}
