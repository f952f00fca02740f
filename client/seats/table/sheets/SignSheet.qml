// Who signs: the team lists before the match, the result after it. One touch each, by function.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "sign"
    word: qsTr("Signatures")
    key: "Y"
    offered: seat.signing.offered
    anywhere: true

    title: seat.signing.ofResult ? qsTr("Who signs the result?") : qsTr("Who signs the team lists?")
    note: seat.signing.ofResult
          ? qsTr("Each looks at the result and touches their own line, the first referee last: with that signature the result goes out. Whatever is corrected after it takes the signatures back.")
          : qsTr("Each looks at the list of the team and touches their own line.")
    widthMm: 150

    StateMark {
        objectName: "signState"
        kind: sheet.seat.signing.closed ? StateMark.Good : StateMark.Caution
        word: sheet.seat.signing.words
        lines: 3
        Layout.fillWidth: true
    }
    Grid {
        id: signers
        columns: 2
        columnSpacing: Theme.gap
        rowSpacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            // Counted: who has signed is news of a button and makes none anew.
            model: sheet.seat.signing.lines.length
            Button {
                required property int index
                readonly property var line: sheet.seat.signing.lines[index] ?? null
                readonly property bool given: line?.given ?? false
                objectName: "sign-" + (line?.by ?? "")
                text: given ? qsTr("✓ %1").arg(line?.words ?? "") : line?.words ?? ""
                explanation: given ? qsTr("has signed") : qsTr("has not signed")
                kind: given ? Button.Quiet : line?.missing ? Button.Primary : Button.Plain
                enabled: !given
                implicitHeight: Theme.touchRally
                width: (signers.width - signers.columnSpacing) / 2
                onClicked: sheet.seat.signing.sign(line.by)
            }
        }
    }
}
