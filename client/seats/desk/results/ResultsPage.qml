// The matches of a division with their results; those that a table has finished come first.
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
    property bool narrow: false
    readonly property ResultPage results: desk.results

    signal matchWanted(string match)
    signal dutyWanted(string match)
    signal publishWanted()
    signal exportWanted()

    function enter() {
        list.forceActiveFocus();
    }

    spacing: Theme.gap

    PageHead {
        title: page.results.confirmable > 0 ? qsTr("Results: %1 to confirm").arg(page.results.confirmable)
                                            : qsTr("Results")
        Layout.fillWidth: true
        Button {
            objectName: "confirmer"
            visible: !page.narrow
            kind: Button.Quiet
            text: page.results.bySignatures ? qsTr("Signatures confirm") : qsTr("The desk confirms")
            explanation: page.results.bySignatures
                         ? qsTr("Signatures at the table confirm a result; the desk always may. Touch to leave it to the desk alone.")
                         : qsTr("The desk confirms each result. Touch to let signatures at the table confirm too.")
            onClicked: page.results.changeConfirmer()
        }
        Button {
            objectName: "exportEvent"
            visible: !page.narrow
            kind: Button.Quiet
            text: qsTr("Export the event")
            onClicked: page.exportWanted()
        }
        Button {
            objectName: "publishPlan"
            visible: !page.narrow
            kind: Button.Quiet
            text: qsTr("Publish the plan")
            onClicked: page.publishWanted()
        }
        Chip {
            objectName: "onlyOpen"
            touchable: true
            checkable: true
            text: qsTr("Without a result")
            checked: page.results.onlyOpen
            onClicked: page.results.onlyOpen = !page.results.onlyOpen
        }
        DivisionPicker {
            desk: page.desk
        }
    }
    Hairline {
        Layout.fillWidth: true
    }
    KeyedList {
        id: list
        objectName: "resultList"
        model: page.results.rows
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.name: qsTr("Results")
        onEntered: page.matchWanted(page.results.rows.field(currentIndex, "key") ?? "")
        Keys.onPressed: event => {
            event.accepted = event.key === Qt.Key_W && event.modifiers === Qt.NoModifier && !event.isAutoRepeat;
            if (event.accepted)
                page.dutyWanted(page.results.rows.field(currentIndex, "key") ?? "");
        }
        delegate: ResultLine {
            width: ListView.view.width
            narrow: page.narrow
            current: ListView.isCurrentItem && list.activeFocus
            onClicked: page.matchWanted(key)
        }
        Label {
            visible: list.count === 0
            width: parent.width
            objectName: "noResults"
            text: page.results.emptyWords
            soft: true
            wrapMode: Text.WordWrap
        }
    }
}
