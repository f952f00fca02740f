// What was done and what was refused in this venue, newest first.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: page

    required property AuditList audit

    spacing: Theme.gap
    onVisibleChanged: if (visible) audit.readNewest()

    PageHead {
        title: qsTr("What was done")
        act: qsTr("Read again")
        actName: "auditAgain"
        Layout.fillWidth: true
        onActed: page.audit.readNewest()
    }
    Hairline {
        Layout.fillWidth: true
    }
    StateMark {
        objectName: "auditProblem"
        visible: page.audit.problem !== ""
        kind: StateMark.Fault
        word: page.audit.problem
        lines: 4
        Layout.fillWidth: true
    }
    KeyedList {
        id: list
        objectName: "auditList"
        model: page.audit.rows
        Layout.fillWidth: true
        Layout.fillHeight: true
        enters: false
        Accessible.name: qsTr("What was done")
        delegate: ListRow {
            id: row
            required property int number
            required property string what
            required property string who
            required property string about
            required property string time
            required property int mark
            required property string state
            objectName: "audit-" + number
            width: ListView.view.width
            title: what
            detail: about !== "" ? who + " · " + about : who
            trailing: time
            touchable: false
            StateMark {
                visible: row.state !== ""
                kind: row.mark
                word: row.state
                capMm: 2.5
            }
        }
        Label {
            visible: list.count === 0 && page.audit.asked && page.audit.problem === ""
            text: qsTr("Nothing was done yet.")
            soft: true
        }
    }
    Button {
        objectName: "auditOlder"
        kind: Button.Quiet
        visible: page.audit.more
        enabled: !page.audit.busy
        text: qsTr("Older ones")
        Layout.alignment: Qt.AlignHCenter
        onClicked: page.audit.readOlder()
    }
}
