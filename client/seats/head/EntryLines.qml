// A short list of entries of the record: number, words, and when.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design

ColumnLayout {
    id: block

    property string title: ""
    property var lines: []

    spacing: Theme.mm(1)

    Label {
        text: block.title
        soft: true
        capMm: 2.5
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    Hairline {
        Layout.fillWidth: true
    }
    Column {
        id: entries
        spacing: block.spacing
        Layout.fillWidth: true
        Repeater {
            model: block.lines
            RowLayout {
                id: line
                required property var modelData
                spacing: Theme.gap
                width: entries.width
                Label {
                    text: line.modelData.number
                    capMm: 2.5
                    soft: true
                    horizontalAlignment: Text.AlignRight
                    Layout.preferredWidth: Theme.mm(8)
                    Layout.alignment: Qt.AlignTop
                    Accessible.name: qsTr("entry %1").arg(text)
                }
                Label {
                    text: line.modelData.words
                    wrapMode: Text.WordWrap
                    Layout.fillWidth: true
                }
                Label {
                    visible: text !== ""
                    text: line.modelData.when
                    capMm: 2.5
                    soft: true
                }
            }
        }
    }
}
