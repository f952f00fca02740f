// A verdict with its evidence, for the referee to accept or overrule. The tool only advises.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Sheet {
    id: sheet

    required property TableSeat seat
    property int index: 0
    readonly property var notice: seat.notices[index] ?? ({})

    function show(at: int) {
        index = at;
        open();
    }

    title: qsTr("Ruling of the first referee")
    note: qsTr("The rules and the entries speak for what is written here; the referee decides.")
    widthMm: 190

    Flow {
        visible: sheet.seat.notices.length > 1
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: sheet.seat.notices.length
            Button {
                required property int index
                text: qsTr("%1 of %2").arg(index + 1).arg(sheet.seat.notices.length)
                checkable: true
                checked: sheet.index === index
                onClicked: sheet.index = index
            }
        }
    }
    StateMark {
        kind: sheet.notice.open ? StateMark.Fault : StateMark.Caution
        word: sheet.notice.phase ?? ""
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
            onClicked: {
                sheet.seat.rule(sheet.index, false);
                sheet.close();
            }
        },
        Item {
            Layout.fillWidth: true
        },
        Button {
            objectName: "accept"
            kind: Button.Primary
            text: qsTr("Accepted: apply the remedy")
            onClicked: {
                sheet.seat.rule(sheet.index, true);
                sheet.close();
            }
        }
    ]
}
