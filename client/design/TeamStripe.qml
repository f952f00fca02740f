// A team's colour: user data, so it is only ever a stripe with an ink edge and never a state.
import QtQuick

Rectangle {
    property color team: "transparent"

    implicitWidth: Theme.mm(2)
    implicitHeight: Theme.touch
    color: team
    border.color: Theme.ink
    border.width: Theme.hair
    Accessible.ignored: true
}
