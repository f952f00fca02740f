// A sheet for words that a person writes, of a team or of nobody in particular.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    // A team must be chosen first.
    property bool ofTeam: false
    property string label: ""
    property string recordWord: ""

    signal written(bool onLeft, string words)

    note: qsTr("Short and plain. No names of minors, no health or personal details.")
    onAboutToShow: {
        words.text = "";
        team.chosen = false;
    }
    onOpened: words.input.forceActiveFocus()

    TeamChoice {
        id: team
        visible: sheet.ofTeam
        seat: sheet.seat
        chosen: false
        Layout.fillWidth: true
    }
    Field {
        id: words
        objectName: "words"
        label: sheet.label
        maximumLength: 500
        Layout.fillWidth: true
    }

    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            objectName: "recordWords"
            kind: Button.Primary
            text: sheet.recordWord
            enabled: words.text.trim() !== "" && (!sheet.ofTeam || team.chosen)
            onClicked: {
                sheet.written(team.isLeft, words.text);
                sheet.close();
            }
        }
    ]
}
