// What waits for an official, worst and oldest first.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Head

ColumnLayout {
    id: column

    required property HeadSeat seat

    function focusList() {
        list.forceActiveFocus();
    }

    spacing: Theme.gap

    RowLayout {
        Layout.fillWidth: true
        Heading {
            text: qsTr("Alerts")
            Layout.fillWidth: true
        }
        Label {
            text: column.seat.alerts.count
            capMm: 4.2
            strong: true
            Accessible.name: qsTr("%1 open alerts").arg(text)
        }
    }
    KeyedList {
        id: list

        objectName: "alertList"
        model: column.seat.alerts
        highlightMoveDuration: 0
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.name: qsTr("Alerts, %1").arg(column.seat.alerts.summary)

        Keys.onPressed: event => {
            column.seat.touched();
            const row = currentItem as AlertRow;
            const answers = row !== null && row.asks
                            && (event.key === Qt.Key_G || event.key === Qt.Key_N);
            if (answers)
                column.seat.answerTakeOver(row.alertId, event.key === Qt.Key_G);
            event.accepted = answers;
        }
        onEntered: column.seat.openAlert((currentItem as AlertRow)?.alertId ?? "")

        delegate: AlertRow {
            width: ListView.view.width
            current: ListView.isCurrentItem && list.activeFocus
            chosen: column.seat.page.alertId === alertId
            busy: column.seat.page.busy
            onAnswered: consent => column.seat.answerTakeOver(alertId, consent)
            onPressed: column.seat.touched()
            onClicked: {
                list.currentIndex = index;
                column.seat.openAlert(alertId);
            }
        }
        move: Transition {
            NumberAnimation { property: "y"; duration: Theme.movement }
        }
        moveDisplaced: Transition {
            NumberAnimation { property: "y"; duration: Theme.movement }
        }

        Label {
            visible: list.count === 0
            width: parent.width
            text: qsTr("Nothing waits for you.")
            soft: true
            wrapMode: Text.WordWrap
        }
    }
}
