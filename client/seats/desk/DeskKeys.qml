// The keys of the desk's seat.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design

Sheet {
    id: sheet

    title: qsTr("Keys")
    widthMm: 130
    onward: closing

    Repeater {
        model: [
            ["F1 – F11", qsTr("matches, courts, teams, import, log, pools, bracket, results, record, places, officials")],
            [qsTr("Ctrl+N"), qsTr("what is begun on this page: match, teams, draw, bracket, official")],
            [qsTr("Ctrl+O"), qsTr("import team lists")],
            [qsTr("Ctrl+E"), qsTr("export the event")],
            [qsTr("Ctrl+P"), qsTr("publish the plan")],
            [qsTr("Arrows"), qsTr("from row to row, in the bracket from match to match")],
            [qsTr("Home, End"), qsTr("to the first row, to the last; Page Up and Page Down go by pages")],
            [qsTr("Enter"), qsTr("open what is chosen; on a sheet, choose where the focus is, else go on as its button says")],
            [qsTr("Ctrl+Enter"), qsTr("go on from a field of several lines")],
            [qsTr("Tab, Enter"), qsTr("press a button; what cannot be taken back wants this")],
            ["D", qsTr("on the pools: decide teams that are level")],
            ["W", qsTr("on the results: who works the match")],
            [qsTr("+, -, 0"), qsTr("on the bracket: larger, smaller, all of it")],
            [qsTr("G, N"), qsTr("let the new table go on, or not")],
            [qsTr("Tab"), qsTr("lists, fields, buttons; the space bar presses one")],
            [qsTr("Esc"), qsTr("leave a sheet; nothing is recorded")],
            ["?", qsTr("this list")]
        ]
        RowLayout {
            id: line
            required property int index
            required property var modelData
            objectName: "keyLine" + index
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
