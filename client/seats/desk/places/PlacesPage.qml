// The final places of a division. A touch on one tells why its team holds it.
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
    readonly property PlacePage places: desk.places

    function enter() {
        list.forceActiveFocus();
    }
    function look(key: string) {
        if (page.places.look(key))
            reasons.open();
    }

    spacing: Theme.gap

    PageHead {
        title: qsTr("Final places")
        Layout.fillWidth: true
        DivisionPicker {
            desk: page.desk
        }
    }
    Hairline {
        Layout.fillWidth: true
    }
    StateMark {
        objectName: "eventEnding"
        visible: word !== ""
        kind: page.places.eventMark
        word: page.places.eventWords
        lines: 6
        Layout.fillWidth: true
    }
    StateMark {
        objectName: "divisionEnding"
        visible: word !== ""
        kind: page.places.mark
        word: page.places.words
        lines: 3
        Layout.fillWidth: true
    }
    Column {
        id: undecided
        visible: page.places.undecided.length > 0
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: page.places.undecided.length
            StateMark {
                required property int index
                objectName: "undecided" + index
                kind: StateMark.Caution
                word: page.places.undecided[index] ?? ""
                strong: false
                lines: 3
                width: undecided.width
            }
        }
    }
    ListView {
        id: list
        objectName: "placeList"
        model: page.places.rows
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        activeFocusOnTab: true
        keyNavigationEnabled: true
        Keys.forwardTo: [listEnds]
        ListEnds {
            id: listEnds
            view: list
        }
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.role: Accessible.List
        Accessible.name: qsTr("Final places")
        // A key that is still held from the sheet before opens nothing.
        Keys.onReturnPressed: event => {
            if (!event.isAutoRepeat)
                page.look(page.places.rows.field(currentIndex, "key") ?? "");
        }
        Keys.onEnterPressed: event => {
            if (!event.isAutoRepeat)
                page.look(page.places.rows.field(currentIndex, "key") ?? "");
        }
        delegate: PlaceLine {
            width: ListView.view.width
            current: ListView.isCurrentItem && list.activeFocus
            onClicked: page.look(key)
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
        page: page.places
    }
}
