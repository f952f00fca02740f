// A verdict with its evidence, for the referee to accept or overrule. The tool only advises.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "ruling"
    word: qsTr("Ruling on a verdict")
    key: "J"
    place: TableSheet.More
    rank: 70
    offered: seat.board.faults.length > 0

    // The verdict that is looked at, as it was when it was chosen. It stays what it is, whatever
    // comes in from outside.
    property var chosen: ({})
    readonly property int at: seat.board.faults.length > 0 && chosen.entry !== undefined
                              ? seat.board.faultAt(chosen.entry, chosen.reason, chosen.team) : -1
    readonly property bool stands: at >= 0
    readonly property var notice: stands ? seat.board.faults[at] : chosen

    function rule(accept: bool) {
        if (seat.board.rule(chosen.entry, chosen.reason, chosen.team, accept))
            close();
    }

    title: qsTr("Ruling of the first referee")
    note: qsTr("The rules and the entries speak for what is written here; the referee decides.")
    widthMm: 190
    // The most pressing one first.
    onAboutToShow: chosen = seat.board.faults[seat.board.worst] ?? ({})

    Flow {
        visible: sheet.seat.board.faults.length > 1
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: sheet.seat.board.faults.length
            Button {
                required property int index
                text: qsTr("%1 of %2").arg(index + 1).arg(sheet.seat.board.faults.length)
                checkable: true
                objectName: "notice" + index
                checked: sheet.at === index
                onClicked: sheet.chosen = sheet.seat.board.faults[index]
            }
        }
    }
    StateMark {
        objectName: "rulingState"
        kind: !sheet.stands ? StateMark.Notice
            : sheet.notice.open ? StateMark.Fault : StateMark.Caution
        word: !sheet.stands ? qsTr("This fault no longer stands: it has been ruled or put right")
            : sheet.notice.behind ? qsTr("An older fault of the same kind is ruled first")
                                  : sheet.notice.phase ?? ""
        capMm: 3.4
    }
    Label {
        text: sheet.notice.text ?? ""
        strong: true
        capMm: 3.4
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    GridLayout {
        columns: 2
        columnSpacing: Theme.gapWide
        rowSpacing: Theme.gap
        Layout.fillWidth: true
        Label {
            text: qsTr("rule")
            soft: true
            capMm: 2.5
        }
        Label {
            objectName: "rulingRule"
            text: sheet.notice.rule ?? ""
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Label {
            text: qsTr("remedy")
            soft: true
            capMm: 2.5
        }
        Label {
            text: sheet.notice.remedy ?? ""
            strong: true
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Label {
            text: qsTr("six before")
            soft: true
            capMm: 2.5
        }
        Label {
            text: sheet.notice.before ?? ""
            Layout.fillWidth: true
        }
        Label {
            text: qsTr("six after")
            soft: true
            capMm: 2.5
        }
        Label {
            text: sheet.notice.after ?? ""
            Layout.fillWidth: true
        }
        Label {
            text: qsTr("since")
            soft: true
            capMm: 2.5
        }
        Label {
            text: qsTr("rally %1, entry %2").arg(sheet.notice.rally ?? 0).arg(sheet.notice.entry ?? 0)
            Layout.fillWidth: true
        }
    }

    actions: [
        Button {
            objectName: "overrule"
            text: qsTr("Overruled: no fault")
            enabled: sheet.stands && !sheet.notice.behind
            onClicked: sheet.rule(false)
        },
        Item {
            Layout.fillWidth: true
        },
        Button {
            objectName: "accept"
            kind: Button.Primary
            text: qsTr("Accepted: apply the remedy")
            enabled: sheet.stands && !sheet.notice.behind
            onClicked: sheet.rule(true)
        }
    ]
}
