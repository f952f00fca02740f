#include "client/app/head_screen.h"

namespace courthand::client {

QString venue_name(const EnrolledSeat& seat) {
    const std::string& name = seat.device.tournament_name;
    return QString::fromStdString(name.empty() ? seat.device.server : name);
}

HeadScreen::HeadScreen(const EnrolledSeat& known, QQmlApplicationEngine& engine)
    : board_{open_channel(known), "Head official", board_options(known)},
      event_{open_channel(known), "head official"},
      seat_{board_, event_, venue_name(known)},
      engine_{engine} {}

std::string HeadScreen::open(bool dark) {
    engine_.setInitialProperties(
        {{QStringLiteral("seat"), QVariant::fromValue(&seat_)}, {QStringLiteral("dark"), dark}});
    engine_.load(QUrl(QStringLiteral("qrc:/qt/qml/Courthand/Head/HeadWindow.qml")));
    if (engine_.rootObjects().isEmpty()) return "The window of the head seat cannot be loaded.";
    return {};
}

}  // namespace courthand::client
