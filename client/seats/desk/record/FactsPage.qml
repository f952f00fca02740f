// What was said in the tournament's record, the newest first; one of it is taken back from here.
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

    function enter() {
        list.forceActiveFocus();
    }

    spacing: Theme.gap

    PageHead {
        title: qsTr("The record")
        Layout.fillWidth: true
    }
    Hairline {
        Layout.fillWidth: true
    }
    KeyedList {
        id: list
        objectName: "recordList"
        model: page.desk.record.rows
        highlightMoveDuration: 0
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.name: qsTr("The record")
        onEntered: (currentItem as ListRow)?.clicked()
        delegate: ListRow {
            id: row
            required property int index
            required property int number
            required property string says
            required property string about
            required property int mark
            required property string state
            required property bool counts
            objectName: "fact-" + number
            width: ListView.view.width
            title: number + "  " + says
            detail: about
            selected: ListView.isCurrentItem && ListView.view.activeFocus
            touchable: counts
            StateMark {
                visible: row.state !== ""
                kind: row.mark
                word: row.state
                capMm: 2.5
            }
            onClicked: {
                list.currentIndex = row.index;
                page.desk.record.takeBack(row.number);
            }
        }
        Label {
            visible: list.count === 0
            text: qsTr("Nothing was said yet.")
            soft: true
        }
    }
    Button {
        objectName: "factsOlder"
        kind: Button.Quiet
        visible: page.desk.record.more
        text: qsTr("Older ones")
        Layout.alignment: Qt.AlignHCenter
        onClicked: page.desk.record.showOlder()
    }
}
