// The number of a court that is not in the list: a new venue has none until a match is given one.
import QtQuick
import Courthand.Design

Field {
    id: other

    readonly property int court: input.acceptableInput ? parseInt(text) : 0
    readonly property int mostCourts: 1000

    label: qsTr("Another court, by its number")
    maximumLength: 4
    inputMethodHints: Qt.ImhDigitsOnly
    validator: IntValidator {
        bottom: 1
        top: other.mostCourts
    }
}
