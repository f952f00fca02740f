// Composition root of the seats: everything a window stands on is made here and given to it.
#include "client/app/screens.h"

#include <QtQml/qqml.h>
#include <QtQml/qqmlextensionplugin.h>
#include <QGuiApplication>
#include <QQmlApplicationEngine>
#include <QQuickStyle>
#include <QTimer>
#include <cstdio>
#include <memory>

#include <fmt/format.h>

#include "client/app/enrolled_seat.h"
#include "client/app/head_screen.h"
#include "client/app/stop_signal.h"
#include "client/app/table_screen.h"
#include "desk_seat.h"
#include "venue/board_client.h"
#include "venue/desk_client.h"
#include "venue/event_client.h"
#include "venue/export_client.h"

Q_IMPORT_QML_PLUGIN(Courthand_DesignPlugin)
Q_IMPORT_QML_PLUGIN(Courthand_TablePlugin)
Q_IMPORT_QML_PLUGIN(Courthand_HeadPlugin)
Q_IMPORT_QML_PLUGIN(Courthand_DeskPlugin)

namespace courthand::client {
namespace {

constexpr int look_for_stop_ms = 200;

int fail(const std::string& words) {
    fmt::print(stderr, "{}\n", words);
    return exit_failed;
}

/// One window with its engine; theme and clean stop are the same for every seat.
class SeatWindow {
  public:
    SeatWindow(int& argc, char** argv) : application_{argc, argv} {
        QQuickStyle::setStyle(QStringLiteral("Basic"));
        engine_->addImportPath(QStringLiteral("qrc:/qt/qml"));
        stop_.setInterval(look_for_stop_ms);
        QObject::connect(&stop_, &QTimer::timeout, &application_, [] {
            if (stop_asked()) QCoreApplication::quit();
        });
        stop_.start();
    }
    QQmlApplicationEngine& engine() { return *engine_; }

    int show(const QString& url, QVariantMap properties) {
        engine_->setInitialProperties(properties);
        engine_->load(QUrl(url));
        if (engine_->rootObjects().isEmpty()) return fail("The window cannot be loaded.");
        return run();
    }
    void set_dark(bool dark) {
        const int id = qmlTypeId("Courthand.Design", 1, 0, "Theme");
        if (auto* theme = engine_->singletonInstance<QObject*>(id))
            theme->setProperty("dark", dark);
    }
    /// Until the window is closed. The window goes first, then what it stands on.
    int run() {
        const int code = QCoreApplication::exec();
        engine_.reset();
        return code;
    }

  private:
    QGuiApplication application_;
    std::unique_ptr<QQmlApplicationEngine> engine_ = std::make_unique<QQmlApplicationEngine>();
    QTimer stop_;
};

int run_table(const SeatOptions& options, SeatWindow& window) {
    TableStation::Options wish;
    wish.folder = options.folder;
    wish.server = options.server;
    wish.court = options.court;
    auto station = TableStation::open(std::move(wish));
    if (auto* wrong = std::get_if<std::string>(&station)) return fail(*wrong);
    TableScreen screen{std::move(std::get<0>(station)), window.engine()};
    if (const std::string wrong = screen.open(); !wrong.empty()) return fail(wrong);
    window.set_dark(options.dark);
    return window.run();
}

int run_head(const SeatOptions& options, const EnrolledSeat& known, SeatWindow& window) {
    HeadScreen screen{known, window.engine()};
    if (const std::string wrong = screen.open(options.dark); !wrong.empty()) return fail(wrong);
    return window.run();
}

int run_desk(const SeatOptions& options, const EnrolledSeat& known, SeatWindow& window) {
    const auto channel = open_channel(known);
    venue::BoardClient board{channel, "Tournament desk", board_options(known)};
    venue::DeskClient desk{channel};
    venue::EventClient event{channel, desk_author(known.device)};
    venue::ExportClient exporter{channel};
    seats::DeskSeat seat{
        desk, board, event, exporter, {venue_name(known), desk_author(known.device)}};
    return window.show(QStringLiteral("qrc:/qt/qml/Courthand/Desk/DeskWindow.qml"),
                       {{QStringLiteral("seat"), QVariant::fromValue(&seat)},
                        {QStringLiteral("dark"), options.dark}});
}

}  // namespace

int run_screen(const SeatOptions& options, int& argc, char** argv) {
    if (options.seat == Seat::table) {
        SeatWindow window{argc, argv};
        return run_table(options, window);
    }
    const auto seat = enrolled_seat(options);
    if (const auto* wrong = std::get_if<std::string>(&seat)) return fail(*wrong);
    const auto& known = std::get<EnrolledSeat>(seat);
    SeatWindow window{argc, argv};
    return options.seat == Seat::head ? run_head(options, known, window)
                                      : run_desk(options, known, window);
}

}  // namespace courthand::client
