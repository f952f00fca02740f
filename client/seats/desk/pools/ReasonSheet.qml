// Why a team stands where it stands: every step of the chain in words, its matches, what it needs.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property PoolPage pools
    property string key: ""

    signal decisionWanted()

    component Lines: Column {
        id: group
        property string heading: ""
        property string name: ""
        property var model: []
        visible: model.length > 0
        spacing: Theme.mm(0.6)
        Layout.fillWidth: true
        Label {
            text: group.heading
            strong: true
            width: group.width
        }
        Repeater {
            // Counted: the record goes on while the lines are being laid out.
            model: group.model.length
            Label {
                required property int index
                objectName: group.name + index
                text: group.model[index] ?? ""
                wrapMode: Text.WordWrap
                width: group.width
            }
        }
    }

    title: pools.title
    note: qsTr("Chain: %1").arg(pools.chain)
    widthMm: 190
    onward: pools.undecided ? decide : closing
    onClosed: pools.leave()

    Lines {
        heading: qsTr("Why")
        name: "reason"
        model: sheet.pools.reasons
    }
    Hairline {
        Layout.fillWidth: true
    }
    Lines {
        heading: qsTr("Matches")
        name: "poolMatch"
        model: sheet.pools.matches
    }
    Hairline {
        visible: needs.visible || counting.visible
        Layout.fillWidth: true
    }
    Busy {
        id: counting
        visible: sheet.pools.counting
        words: qsTr("Counting what is still needed")
    }
    Lines {
        id: needs
        heading: qsTr("What it still needs")
        name: "need"
        model: sheet.pools.needs
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            id: decide
            objectName: "reasonDecide"
            visible: sheet.pools.undecided
            kind: Button.Primary
            text: qsTr("Decide")
            keyHint: qsTr("Enter")
            onClicked: sheet.decisionWanted()
        }
    ]
}
