#include "table_fixture.h"

#include <QQmlComponent>
#include <QTest>
#include <stdexcept>

namespace courthand::client::test {

void TableTest::use(const std::string& profile) {
    session = std::make_unique<MemorySession>(profile, harbour_cup_sheet(profile));
}

void TableTest::show(QSize size, double pixels_per_mm) {
    seat = std::make_unique<TableSeat>(*session, [this] { return clock.steady(); });
    engine = std::make_unique<QQmlApplicationEngine>();
    engine->addImportPath(QStringLiteral("qrc:/qt/qml"));
    engine->setInitialProperties({{QStringLiteral("seat"), QVariant::fromValue(seat.get())},
                                  {QStringLiteral("width"), size.width()},
                                  {QStringLiteral("height"), size.height()}});
    engine->load(QUrl{QStringLiteral("qrc:/qt/qml/Courthand/Table/TableWindow.qml")});
    if (engine->rootObjects().isEmpty()) throw std::runtime_error{"TableWindow.qml does not load"};
    window = qobject_cast<QQuickWindow*>(engine->rootObjects().front());
    if (window == nullptr) throw std::runtime_error{"TableWindow.qml is no window"};
    setTheme("pixelsPerMmOverride", pixels_per_mm);
    hand = std::make_unique<ScreenHand>(*window);
    ASSERT_TRUE(QTest::qWaitForWindowExposed(window));
    window->requestActivate();
    ASSERT_TRUE(QTest::qWaitForWindowActive(window));
}

void TableTest::TearDown() {
    hand.reset();
    theme_holder_.reset();
    engine.reset();
    seat.reset();
}

QObject* TableTest::themeObject() {
    if (!theme_holder_) {
        QQmlComponent component{engine.get()};
        component.setData(
            "import QtQml\nimport Courthand.Design\n"
            "QtObject { readonly property QtObject theme: Theme }",
            QUrl{});
        theme_holder_.reset(component.create());
        if (!theme_holder_) throw std::runtime_error{component.errorString().toStdString()};
    }
    return theme_holder_->property("theme").value<QObject*>();
}

QStringList TableTest::cut() const {
    QStringList texts;
    std::vector<const QQuickItem*> items{window->contentItem()};
    while (!items.empty()) {
        const QQuickItem* item = items.back();
        items.pop_back();
        if (!item->isVisible()) continue;
        if (item->inherits("QQuickText") && item->property("truncated").toBool())
            texts << item->property("text").toString();
        for (const QQuickItem* child : item->childItems()) items.push_back(child);
    }
    return texts;
}

bool TableTest::touch_more(const QString& name) {
    return hand->touch("more") && hand->touch(QStringLiteral("more-") + name);
}

QVariant TableTest::theme(const char* property) {
    return themeObject()->property(property);
}

void TableTest::setTheme(const char* property, const QVariant& value) {
    ASSERT_TRUE(themeObject()->setProperty(property, value)) << property;
}

Jersey TableTest::at(Team team, Position position) const {
    return on_court(session->state().set.team[team])[index(position)];
}

}  // namespace courthand::client::test
