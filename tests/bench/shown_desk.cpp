#include "tests/bench/shown_desk.h"

#include <QMetaEnum>
#include <QTest>
#include <stdexcept>
#include <string>
#include <utility>

#include "tests/bench/thread_time.h"

namespace courthand::bench {
namespace {

/// So often in a row nothing may be left to do, and so long is looked each time.
constexpr int quiet_looks = 3;
constexpr int look_ms = 100;
constexpr double quiet_s = 0.002;

/// Where the modules of QML are. $COURTHAND_BENCH_QML names others, as in "file:///tmp/qml"
/// (without `prefer` in their qmldir), so that a change of QML is measured without a build.
QString modules() {
    return qEnvironmentVariable("COURTHAND_BENCH_QML", QStringLiteral("qrc:/qt/qml"));
}

QQuickItem* find(QQuickItem* item, const QString& name) {
    if (item->objectName() == name) return item;
    for (QQuickItem* child : item->childItems())
        if (QQuickItem* const found = find(child, name)) return found;
    return nullptr;
}

}  // namespace

ShownDesk::ShownDesk(LargeHall hall)
    : hall_{std::move(hall)}, event_{hall_.facts}, desk_{hall_.book}, board_{hall_.board} {
    seat_ = std::make_unique<seats::DeskSeat>(
        desk_, board_, event_, exporter_, seats::DeskNames{QStringLiteral("Harbour Cup"), "desk"});
    engine_.addImportPath(modules());
    engine_.setInitialProperties({{QStringLiteral("seat"), QVariant::fromValue(seat_.get())},
                                  {QStringLiteral("width"), window_width},
                                  {QStringLiteral("height"), window_height}});
    engine_.load(QUrl{modules() + QStringLiteral("/Courthand/Desk/DeskWindow.qml")});
    if (engine_.rootObjects().isEmpty()) throw std::runtime_error{"the seat does not load"};
    window_ = qobject_cast<QQuickWindow*>(engine_.rootObjects().front());
    if (window_ == nullptr) throw std::runtime_error{"the seat has no window"};
}

// The screen goes before the seat that it shows.
ShownDesk::~ShownDesk() {
    delete window_;
}

QQuickItem& ShownDesk::show(const PageShown& page) {
    const QMetaObject& meta = *window_->metaObject();
    const QMetaEnum pages = meta.enumerator(meta.indexOfEnumerator("Page"));
    window_->setProperty("page", pages.keyToValue(page.page));
    window_->setProperty("listsWanted", std::string{"teamList"} == page.list);
    settle();
    QQuickItem* const list = find(window_->contentItem(), QString::fromLatin1(page.list));
    if (list == nullptr || !list->isVisible())
        throw std::runtime_error{std::string{"not on the screen: "} + page.list};
    return *list;
}

void ShownDesk::next_rally() {
    hall_.rally(court_);
    court_ = (court_ + 1) % hall_courts;
    board_.show(hall_.board);
    desk_.show(hall_.book);
}

void ShownDesk::watch(QQuickItem& list, Told& told) {
    auto* const model = qobject_cast<QAbstractItemModel*>(list.property("model").value<QObject*>());
    if (model == nullptr) throw std::runtime_error{"the list has no model"};
    QObject::connect(model, &QAbstractItemModel::modelReset, window_, [&] { ++told.resets; });
    QObject::connect(model, &QAbstractItemModel::layoutChanged, window_, [&] { ++told.layouts; });
    QObject::connect(model, &QAbstractItemModel::rowsInserted, window_, [&] { ++told.inserted; });
    QObject::connect(model, &QAbstractItemModel::rowsRemoved, window_, [&] { ++told.removed; });
    QObject::connect(model, &QAbstractItemModel::dataChanged, window_,
                     [&](const QModelIndex& from, const QModelIndex& to) {
                         told.rows_changed += to.row() - from.row() + 1;
                     });
}

void ShownDesk::settle() {
    for (int quiet = 0; quiet < quiet_looks;) {
        const double before = thread_seconds();
        QTest::qWait(look_ms);
        quiet = thread_seconds() - before < quiet_s ? quiet + 1 : 0;
    }
}

}  // namespace courthand::bench
