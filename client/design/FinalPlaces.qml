// The final places of a division: how far event and division are, and a line for each place. A touch
// on one tells why its team holds it. `page` is the C++ PlacePage, which head and desk share.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts

ColumnLayout {
    id: places

    required property var page
    property bool narrow: false

    function enter() {
        list.forceActiveFocus();
    }
    function look(key: string) {
        if (places.page.look(key))
            reasons.open();
    }

    spacing: Theme.gap

    StateMark {
        objectName: "eventEnding"
        visible: word !== ""
        kind: places.page.eventMark
        word: places.page.eventWords
        lines: 6
        Layout.fillWidth: true
    }
    StateMark {
        objectName: "divisionEnding"
        visible: word !== ""
        kind: places.page.mark
        word: places.page.words
        lines: 3
        Layout.fillWidth: true
    }
    Column {
        id: undecided
        visible: places.page.undecided.length > 0
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: places.page.undecided.length
            StateMark {
                required property int index
                objectName: "undecided" + index
                kind: StateMark.Caution
                word: places.page.undecided[index] ?? ""
                strong: false
                lines: places.narrow ? 6 : 3
                width: undecided.width
            }
        }
    }
    KeyedList {
        id: list
        objectName: "placeList"
        model: places.page.rows
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.name: qsTr("Final places")
        onEntered: places.look(places.page.rows.field(currentIndex, "key") ?? "")
        delegate: PlaceLine {
            width: ListView.view.width
            narrow: places.narrow
            current: ListView.isCurrentItem && list.activeFocus
            onClicked: places.look(key)
        }
        Label {
            visible: list.count === 0
            width: parent.width
            text: qsTr("No place is played for yet. Draw pools or make a bracket first.")
            soft: true
            wrapMode: Text.WordWrap
        }
    }
    PlaceSheet {
        id: reasons
        page: places.page
    }
}
