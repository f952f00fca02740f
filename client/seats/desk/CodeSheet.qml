// A one-use code for a new device: choose its place, then read the code out or show the patch.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property DeskSeat seat
    property int place: CodeOffer.Table
    property int court: 0
    readonly property bool shown: seat.code.symbols !== ""

    function ask(number: int) {
        sheet.place = CodeOffer.Table;
        sheet.court = number;
        sheet.seat.code.clear();
        other.text = "";
        sheet.open();
    }

    title: qsTr("Enrol a device")
    note: qsTr("The device is bound to its place. The code works once.")
    widthMm: 150
    // While one is read out, Enter makes no other.
    onward: shown ? null : issue
    onClosed: seat.code.clear()
    // `focus`: the button is disabled while its code is asked for.
    onShownChanged: if (shown && issue.focus)
                        rest()

    RowLayout {
        spacing: Theme.gap
        Repeater {
            model: [qsTr("Table"), qsTr("Desk"), qsTr("Head official")]
            Button {
                required property int index
                required property string modelData
                objectName: "place" + index
                text: modelData
                checkable: true
                autoExclusive: true
                checked: sheet.place === index
                Accessible.role: Accessible.RadioButton
                onClicked: sheet.place = index
            }
        }
    }
    Flow {
        visible: sheet.place === CodeOffer.Table
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: sheet.seat.courts
            Button {
                required property int court
                required property string name
                objectName: "codeCourt" + court
                text: name
                checkable: true
                autoExclusive: true
                checked: sheet.court === court
                Accessible.role: Accessible.RadioButton
                onClicked: sheet.court = court
            }
        }
    }
    OtherCourt {
        id: other
        objectName: "codeCourtOther"
        visible: sheet.place === CodeOffer.Table
        onCourtChanged: if (court > 0)
                            sheet.court = court
    }
    RowLayout {
        visible: sheet.shown
        spacing: Theme.gapWide
        Layout.fillWidth: true
        Layout.topMargin: Theme.gap
        QrPatch {
            objectName: "codePatch"
            size: sheet.seat.code.qrSize
            cells: sheet.seat.code.qrCells
            Accessible.name: qsTr("The same as a QR code")
        }
        ColumnLayout {
            spacing: Theme.gap
            Layout.fillWidth: true
            Label {
                text: sheet.seat.code.place
                strong: true
            }
            Label {
                objectName: "symbols"
                // Two lines of three groups, as they are read out.
                readonly property int half: Math.ceil(sheet.seat.code.symbols.length / 2)
                text: sheet.seat.code.symbols.slice(0, half).trim() + "\n"
                    + sheet.seat.code.symbols.slice(half).trim()
                Accessible.name: sheet.seat.code.symbols
                capMm: 5
                strong: true
                wrapMode: Text.WordWrap
                Layout.fillWidth: true
            }
            Label {
                text: sheet.seat.code.expires
                soft: true
            }
        }
    }
    StateMark {
        objectName: "codeProblem"
        visible: sheet.seat.code.problem !== ""
        kind: StateMark.Fault
        word: sheet.seat.code.problem
        lines: 4
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            id: issue
            objectName: "issueCode"
            kind: Button.Primary
            text: sheet.shown ? qsTr("Make another code") : qsTr("Make a code")
            keyHint: sheet.shown ? "" : qsTr("Enter")
            enabled: !sheet.seat.code.busy
            onClicked: sheet.seat.code.issue(sheet.place, sheet.court)
        }
    ]
}
