// A remark, or a protest with its words.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Sheet {
    id: sheet

    required property TableSeat seat
    property bool protest: false

    title: protest ? qsTr("Protest") : qsTr("Remark")
    note: qsTr("Short and plain. No names of minors, no health or personal details.")
    onAboutToShow: {
        words.text = "";
        team.chosen = false;
    }
    onOpened: words.input.forceActiveFocus()

    TeamChoice {
        id: team
        visible: sheet.protest
        seat: sheet.seat
        chosen: false
        Layout.fillWidth: true
    }
    Field {
        id: words
        objectName: "words"
        label: sheet.protest ? qsTr("What the team protests") : qsTr("What is to be written")
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
            text: sheet.protest ? qsTr("Record the protest") : qsTr("Record the remark")
            enabled: words.text.trim() !== "" && (!sheet.protest || team.chosen)
            onClicked: {
                if (sheet.protest)
                    sheet.seat.acts.protest(team.isLeft, words.text);
                else
                    sheet.seat.acts.remark(words.text);
                sheet.close();
            }
        }
    ]
}
