// The head of the desk's page: whose venue, which part of the book, whether it is live.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: header

    required property DeskSeat seat
    property int page: 0
    property bool narrow: false
    property bool dark: false
    // So many pages stand closer on a small laptop.
    readonly property bool close: width < Theme.mm(420)

    signal pageChosen(int page)
    signal darkChosen()
    signal keysWanted()

    spacing: Theme.gap

    GridLayout {
        columns: header.narrow ? 1 : 2
        columnSpacing: Theme.gapWide
        rowSpacing: Theme.gap
        Layout.fillWidth: true

        RowLayout {
            spacing: header.close ? Theme.gap : Theme.gapWide
            Layout.fillWidth: true
            Heading {
                text: header.seat.venueName
                leastCapMm: 2.9
                elide: Text.ElideRight
                Layout.fillWidth: true
                Layout.minimumWidth: Theme.mm(20)
                Layout.maximumWidth: Math.ceil(implicitWidth)
            }
            Label {
                visible: header.width > Theme.mm(420)
                text: qsTr("Tournament desk")
                soft: true
            }
            Item {
                Layout.fillWidth: true
            }
            StateMark {
                objectName: "link"
                kind: header.seat.linkMark
                word: header.narrow && header.seat.linkMark === StateMark.Good
                      ? "" : header.seat.linkWord
                Accessible.name: header.seat.linkWord
                // On two lines rather than in the place of the pages.
                lines: header.close ? 2 : 1
                Layout.maximumWidth: header.close ? Theme.mm(34) : header.width * 0.5
                capMm: 2.5
            }
            Label {
                text: header.seat.clock
                capMm: 4.2
                strong: true
            }
        }
        GridLayout {
            // On a phone the pages stand in two rows.
            columns: header.narrow ? 4 : 14
            columnSpacing: Theme.gap
            rowSpacing: Theme.mm(1)
            Repeater {
                model: [qsTr("Matches"), qsTr("Courts"), qsTr("Teams"), qsTr("Import"),
                        qsTr("Log"), qsTr("Pools"), qsTr("Bracket"), qsTr("Results"),
                        qsTr("Record"), qsTr("Places"), qsTr("Officials")]
                Button {
                    required property int index
                    required property string modelData
                    objectName: "page" + index
                    text: modelData
                    capMm: header.narrow ? 2.4 : header.close ? 2.7 : 2.9
                    leftPadding: Theme.mm(header.narrow ? 1 : header.close ? 1.6 : 2.4)
                    rightPadding: leftPadding
                    kind: header.page === index ? Button.Primary : Button.Quiet
                    Layout.fillWidth: header.narrow
                    onClicked: header.pageChosen(index)
                }
            }
            Button {
                visible: !header.narrow
                kind: Button.Quiet
                text: header.dark ? qsTr("Light") : qsTr("Dark")
                onClicked: header.darkChosen()
            }
            Button {
                objectName: "keys"
                visible: header.width > Theme.mm(320)
                kind: Button.Quiet
                text: qsTr("?")
                Accessible.name: qsTr("List of keys")
                onClicked: header.keysWanted()
            }
        }
    }
    Hairline {
        heavy: true
        Layout.fillWidth: true
    }
}
