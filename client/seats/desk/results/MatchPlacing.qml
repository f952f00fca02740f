// On the sheet of a match: its court and its time. Enter in either of them places it.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

RowLayout {
    id: placing

    required property ResultPage page
    property string hint: ""
    // Somebody writes here.
    readonly property bool begun: court.input.activeFocus || time.input.activeFocus
    readonly property alias act: placeNow

    // What the record has now.
    function fill() {
        court.text = placing.page.court;
        time.text = placing.page.time;
    }

    spacing: Theme.gap

    Field {
        id: court
        objectName: "placeCourt"
        label: qsTr("Court")
        maximumLength: 4
        Layout.preferredWidth: Theme.mm(22)
        ownEnter: true
        onAccepted: if (placeNow.enabled)
                        placeNow.clicked()
    }
    Field {
        id: time
        objectName: "placeTime"
        label: qsTr("Time, as 9:30; empty: after the match before")
        problem: placing.page.placeProblem
        maximumLength: 16
        Layout.fillWidth: true
        ownEnter: true
        onAccepted: if (placeNow.enabled)
                        placeNow.clicked()
    }
    Button {
        id: placeNow
        objectName: "placeNow"
        text: qsTr("Place it")
        keyHint: placing.hint
        enabled: court.text !== "" || placing.page.court !== ""
        Layout.alignment: Qt.AlignTop
        Layout.topMargin: Theme.mm(5.4)
        onClicked: placing.page.place(court.text, time.text)
    }
}
