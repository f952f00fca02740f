// The keys of the head official's seat.
import QtQuick
import QtQuick.Layouts
import Courthand.Design

Sheet {
    id: sheet

    title: qsTr("Keys")
    widthMm: 120

    Repeater {
        model: [
            ["F1 – F12", qsTr("court 1 to 12, and its worst alert")],
            [qsTr("Arrows"), qsTr("from card to card, from alert to alert")],
            [qsTr("Enter"), qsTr("open the alert, press the button")],
            [qsTr("G, N"), qsTr("let the new table go on, or not")],
            ["P", qsTr("final places, and places of the pools")],
            [qsTr("Tab"), qsTr("courts, alerts, buttons")],
            [qsTr("Esc"), qsTr("back")],
            ["?", qsTr("this list")]
        ]
        RowLayout {
            id: line
            required property var modelData
            spacing: Theme.gapWide
            Layout.fillWidth: true
            Label {
                text: line.modelData[0]
                strong: true
                Layout.preferredWidth: Theme.mm(24)
            }
            Label {
                text: line.modelData[1]
                wrapMode: Text.WordWrap
                Layout.fillWidth: true
            }
        }
    }
}
