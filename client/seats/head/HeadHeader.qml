// The head of the page: whose venue, how many alerts, whether the board is live.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Head

ColumnLayout {
    id: header

    required property HeadSeat seat
    property bool narrow: false
    property bool dark: false
    property int view: 0

    signal viewChosen(int view)
    signal darkChosen()
    signal helpWanted()

    spacing: Theme.gap

    RowLayout {
        spacing: Theme.gapWide
        Layout.fillWidth: true

        Heading {
            text: header.seat.venueName
            elide: header.narrow ? Text.ElideRight : Text.ElideNone
            Layout.fillWidth: header.narrow
        }
        Label {
            objectName: "summary"
            visible: !header.narrow
            text: header.seat.alerts.summary
            soft: true
            elide: Text.ElideRight
            Layout.fillWidth: true
        }
        StateMark {
            objectName: "link"
            kind: header.seat.linkMark
            word: header.narrow && header.seat.linkMark === StateMark.Good ? ""
                                                                          : header.seat.linkWord
            capMm: 2.5
            Accessible.name: header.seat.linkWord
            Layout.maximumWidth: header.width * 0.5
        }
        Label {
            text: header.seat.clock
            capMm: 4.2
            strong: true
        }
        Button {
            visible: !header.narrow
            objectName: "courts"
            kind: header.view < 2 && !header.seat.page.open ? Button.Primary : Button.Quiet
            text: qsTr("Courts")
            onClicked: header.viewChosen(0)
        }
        Button {
            objectName: "liberos"
            visible: !header.narrow
            kind: header.view === 2 && !header.seat.page.open ? Button.Primary : Button.Quiet
            text: qsTr("Liberos")
            onClicked: header.viewChosen(2)
        }
        Button {
            objectName: "standings"
            visible: !header.narrow
            kind: header.view === 3 && !header.seat.page.open ? Button.Primary : Button.Quiet
            text: qsTr("Standings")
            onClicked: header.viewChosen(3)
        }
        Button {
            visible: !header.narrow
            kind: Button.Quiet
            text: header.dark ? qsTr("Light") : qsTr("Dark")
            explanation: qsTr("Changes the paper; dark suits a wall panel")
            onClicked: header.darkChosen()
        }
        Button {
            visible: !header.narrow
            kind: Button.Quiet
            //: The key and the button that list the keys
            text: qsTr("?")
            Accessible.name: qsTr("List of keys")
            onClicked: header.helpWanted()
        }
    }
    RowLayout {
        visible: header.narrow
        spacing: Theme.gap
        Layout.fillWidth: true

        Repeater {
            // Counted: a new alert changes a word, and the button that has the focus stays.
            model: 4
            Button {
                required property int index
                objectName: "tab" + index
                text: [qsTr("Courts"), qsTr("Alerts %1").arg(header.seat.alerts.count),
                       qsTr("Liberos"), qsTr("Places")][index]
                capMm: 2.6
                leftPadding: Theme.mm(0.8)
                rightPadding: Theme.mm(0.8)
                kind: header.view === index && !header.seat.page.open ? Button.Primary
                                                                      : Button.Plain
                Layout.fillWidth: true
                onClicked: header.viewChosen(index)
            }
        }
    }
    Hairline {
        heavy: true
        Layout.fillWidth: true
    }
}
