// The keys, each of which can be turned off or given another letter.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "keys"
    key: "?"
    anywhere: true
    place: TableSheet.More
    rank: 160

    // The act that waits for its new key, or -1.
    property int waiting: -1

    title: qsTr("Keys")
    note: waiting >= 0 ? qsTr("Press the new key, or Escape to leave it.")
                       : qsTr("Touch a key to change it, or the mark to turn it off.")
    widthMm: 200
    onClosed: waiting = -1

    Grid {
        id: grid
        columns: 2
        columnSpacing: Theme.mm(8)
        rowSpacing: Theme.gap
        Layout.fillWidth: true

        Repeater {
            model: sheet.seat.keys.list
            RowLayout {
                id: row
                required property var modelData
                spacing: Theme.gap
                width: (grid.width - grid.columnSpacing) / 2
                Button {
                    objectName: "keyOn" + row.modelData.act
                    text: row.modelData.on ? "✓" : "–"
                    kind: Button.Quiet
                    Accessible.name: row.modelData.on ? qsTr("Turn off: %1").arg(row.modelData.words)
                                                      : qsTr("Turn on: %1").arg(row.modelData.words)
                    onClicked: sheet.seat.keys.turn(row.modelData.act, !row.modelData.on)
                }
                Label {
                    text: row.modelData.words
                    soft: !row.modelData.on
                    capMm: 2.6
                    wrapMode: Text.WordWrap
                    Layout.fillWidth: true
                }
                Button {
                    objectName: "key" + row.modelData.act
                    text: sheet.waiting === row.modelData.act ? qsTr("press…") : row.modelData.keys
                    enabled: row.modelData.act !== KeyMap.Figures
                    Accessible.name: qsTr("%1: %2").arg(row.modelData.words).arg(row.modelData.keys)
                    onClicked: {
                        sheet.waiting = row.modelData.act;
                        catcher.forceActiveFocus();
                    }
                }
            }
        }
    }
    Item {
        id: catcher
        Keys.onPressed: event => {
            if (sheet.waiting < 0 || event.text.trim() === "")
                return;
            sheet.seat.keys.remap(sheet.waiting, event.text.toUpperCase());
            sheet.waiting = -1;
            event.accepted = true;
        }
    }

    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            text: qsTr("Usual keys")
            onClicked: sheet.seat.keys.restore()
        }
    ]
}
