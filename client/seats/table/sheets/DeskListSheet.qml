// The desk has sent another team list than the one in the record: what differs, and which counts.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "deskList"
    word: qsTr("List of the desk")
    key: "D"
    offered: seat.deskLists.offer !== ""

    readonly property DeskLists lists: seat.deskLists
    readonly property SideView side: lists.onLeft ? seat.left : seat.right

    title: qsTr("Team list of %1").arg(side.name)
    note: qsTr("The list of the desk counts from the beginning of the match when it is taken over; nothing that was played is lost. Ask the first referee when in doubt.")

    component Line: RowLayout {
        id: line
        property string name: ""
        property string value: ""
        property string valueName: ""
        spacing: Theme.gapWide
        Layout.fillWidth: true
        Label {
            text: line.name
            soft: true
            Layout.preferredWidth: Theme.mm(58)
        }
        Label {
            objectName: line.valueName
            text: line.value
            strong: true
            capMm: 3.4
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
    }

    Line {
        name: qsTr("only in the list of the desk")
        value: sheet.lists.onlyDesk
        valueName: "deskListNew"
    }
    Line {
        name: qsTr("only in the record here")
        value: sheet.lists.onlyRecord
        valueName: "deskListMissing"
    }
    Line {
        name: qsTr("captain in the list of the desk")
        value: sheet.lists.captain
    }

    actions: [
        Button {
            objectName: "leaveDeskList"
            text: qsTr("Keep the list of the record")
            onClicked: {
                sheet.lists.leaveOffered();
                sheet.close();
            }
        },
        Item {
            Layout.fillWidth: true
        },
        Button {
            objectName: "takeDeskList"
            kind: Button.Primary
            text: qsTr("Take over the list of the desk")
            onClicked: {
                sheet.lists.takeOffered();
                sheet.close();
            }
        }
    ]
}
