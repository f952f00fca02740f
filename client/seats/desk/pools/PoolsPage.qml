// The pools of a division, each with its cross table. A touch on a team tells why it stands there.
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
    readonly property PoolPage pools: desk.pools

    signal drawWanted()

    function enter() {
        list.forceActiveFocus();
    }
    function look(key: string) {
        if (key.split("|").length < 3)
            return;
        page.pools.look(key);
        reason.key = key;
        reason.open();
    }
    function open() {
        page.look(page.pools.rows.field(list.currentIndex, "key") ?? "");
    }
    function decide(key: string) {
        if (!page.pools.beginDecision(key))
            return;
        reason.close();
        decision.open();
    }

    spacing: Theme.gap

    PageHead {
        title: qsTr("Pools")
        act: qsTr("Draw pools")
        actName: "drawPools"
        Layout.fillWidth: true
        onActed: page.drawWanted()
        DivisionPicker {
            desk: page.desk
        }
    }
    Hairline {
        Layout.fillWidth: true
    }
    KeyedList {
        id: list
        objectName: "poolList"
        model: page.pools.rows
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.role: Accessible.Table
        Accessible.name: qsTr("Pools")
        onEntered: page.open()
        Keys.onPressed: event => {
            event.accepted = event.key === Qt.Key_D && event.modifiers === Qt.NoModifier && !event.isAutoRepeat;
            if (event.accepted)
                page.decide(page.pools.rows.field(currentIndex, "key") ?? "");
        }
        delegate: PoolLine {
            width: ListView.view.width
            narrow: page.narrow
            current: ListView.isCurrentItem && list.activeFocus
            onClicked: page.look(key)
            onDecisionWanted: page.decide(key)
        }
        Label {
            visible: list.count === 0
            width: parent.width
            objectName: "noPools"
            text: page.desk.opened ? qsTr("No pools are drawn in %1.").arg(page.desk.divisionName)
                                   : qsTr("No division is open yet. Open one on the page Teams.")
            soft: true
            wrapMode: Text.WordWrap
        }
    }
    ReasonSheet {
        id: reason
        pools: page.pools
        onDecisionWanted: page.decide(reason.key)
    }
    DecisionSheet {
        id: decision
        pools: page.pools
        preview: page.desk.preview
    }
}
