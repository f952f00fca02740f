// The officials of the event with their conflicts of interest, and the crews.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: page

    // Keys go to the page that is shown.
    enabled: visible

    required property EventDesk desk

    signal personWanted(int person)
    signal crewWanted(string crew)
    signal newWanted()
    signal eraseWanted(var who)

    function enter() {
        list.forceActiveFocus();
    }
    function look(key: string) {
        if (key.startsWith("person|"))
            page.personWanted(Number(key.slice(7)));
        else if (key.startsWith("crew|"))
            page.crewWanted(key.slice(5));
        else if (key.startsWith("left|"))
            page.eraseWanted(page.desk.officials.inWordsOf(Number(key.slice(5))));
    }

    spacing: Theme.gap

    PageHead {
        title: qsTr("Officials")
        act: qsTr("List an official")
        actName: "listOfficial"
        Layout.fillWidth: true
        onActed: page.newWanted()
        Button {
            objectName: "newCrew"
            kind: Button.Quiet
            text: qsTr("Form a crew")
            onClicked: page.crewWanted("")
        }
    }
    Hairline {
        Layout.fillWidth: true
    }
    KeyedList {
        id: list
        objectName: "officialList"
        model: page.desk.officials.rows
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.name: qsTr("Officials")
        onEntered: page.look(page.desk.officials.rows.field(currentIndex, "key") ?? "")
        delegate: ListRow {
            id: row
            required property string key
            required property string name
            required property string about
            required property string work
            required property int mark
            required property string state
            objectName: "official-" + key
            width: ListView.view.width
            focusPolicy: Qt.NoFocus
            title: name
            detail: about
            trailing: work
            selected: ListView.isCurrentItem && ListView.view.activeFocus
            onClicked: page.look(key)
            StateMark {
                kind: row.mark
                word: row.state
                visible: row.state !== ""
                capMm: 2.5
                Layout.preferredWidth: Theme.mm(30)
            }
        }
        Label {
            visible: list.count === 0
            width: parent.width
            text: qsTr("No official is listed. Import a list of people, or list one here.")
            soft: true
            wrapMode: Text.WordWrap
        }
    }
}
