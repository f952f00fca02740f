// What an official may do with the alert that is open.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Head

ColumnLayout {
    id: actions

    required property AlertPage page
    property bool narrow: false

    readonly property var acts: [going, rule, compare, see, later]

    // The first that can be done now: to go there, while nobody goes.
    function focusFirst() {
        const first = actions.acts.find(act => act.visible && act.enabled);
        first?.forceActiveFocus(Qt.TabFocusReason);
    }

    spacing: Theme.gap

    Hairline {
        Layout.fillWidth: true
    }
    StateMark {
        objectName: "problem"
        visible: actions.page.problem !== "" && !ruling.opened && !shelving.opened
        kind: StateMark.Fault
        word: actions.page.problem
        lines: 4
        Layout.fillWidth: true
    }
    // On a phone two to a row.
    GridLayout {
        columns: actions.narrow ? 2 : 10
        columnSpacing: Theme.gap
        rowSpacing: Theme.gap
        Layout.fillWidth: true
        Button {
            objectName: "goOn"
            visible: actions.page.asks
            text: qsTr("Let the new table go on")
            keyHint: actions.narrow ? "" : qsTr("G")
            explanation: qsTr("What the old device still sends is kept aside")
            kind: Button.Primary
            enabled: !actions.page.busy
            Layout.fillWidth: actions.narrow
            onClicked: actions.page.answerTakeOver(true)
        }
        Button {
            objectName: "declineGoOn"
            visible: actions.page.asks
            text: qsTr("No")
            keyHint: actions.narrow ? "" : qsTr("N")
            explanation: qsTr("The device that writes goes on alone")
            enabled: !actions.page.busy
            Layout.fillWidth: actions.narrow
            onClicked: actions.page.answerTakeOver(false)
        }
        Button {
            id: going
            objectName: "going"
            text: qsTr("I'm going")
            explanation: qsTr("Shows everyone that you are on the way")
            kind: actions.page.owner === "" && !actions.page.asks ? Button.Primary : Button.Plain
            enabled: !actions.page.busy && actions.page.owner === ""
            Layout.fillWidth: actions.narrow
            onClicked: actions.page.claim()
        }
        Button {
            id: rule
            objectName: "ruling"
            visible: !actions.page.asks && !actions.page.forked
            text: qsTr("Ruling")
            kind: actions.page.owner === "" ? Button.Plain : Button.Primary
            enabled: !actions.page.busy
            Layout.fillWidth: actions.narrow
            onClicked: ruling.open()
        }
        Button {
            id: compare
            objectName: "lookAtFork"
            visible: actions.page.forked
            text: qsTr("Look at both records")
            explanation: qsTr("Side by side from where they part; then choose which one counts")
            kind: actions.page.owner === "" ? Button.Plain : Button.Primary
            enabled: !actions.page.busy
            Layout.fillWidth: actions.narrow
            onClicked: {
                actions.page.lookAtFork();
                records.open();
            }
        }
        Button {
            id: see
            objectName: "seen"
            visible: actions.page.mayAcknowledge && !actions.page.asks
            text: qsTr("Seen")
            explanation: qsTr("An alert that only informs ends by it")
            enabled: !actions.page.busy
            Layout.fillWidth: actions.narrow
            onClicked: actions.page.acknowledge()
        }
        Button {
            id: later
            objectName: "shelve"
            text: qsTr("Shelve")
            explanation: actions.page.whyNotShelve
            enabled: !actions.page.busy && actions.page.mayShelve
            Layout.fillWidth: actions.narrow
            onClicked: shelving.open()
        }
        Label {
            objectName: "whyNotShelve"
            visible: !actions.narrow
            text: actions.page.whyNotShelve
            soft: true
            capMm: 2.5
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
    }
    Connections {
        target: actions.page
        function onTold() {
            ruling.close();
            shelving.close();
            records.close();
        }
    }

    RulingSheet {
        id: ruling
        page: actions.page
    }
    TwoRecordsSheet {
        id: records
        page: actions.page.fork
    }
    ShelveSheet {
        id: shelving
        page: actions.page
    }
}
