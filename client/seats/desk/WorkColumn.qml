// What waits for the desk, worst first. Where the desk can act, one touch begins it.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: column

    required property RowList work

    property bool busy: false

    signal acted(string name, var subject)
    // The answer to a device that asks to go on with a match.
    signal answered(var subject, bool consent)

    spacing: Theme.gap

    RowLayout {
        Layout.fillWidth: true
        Heading {
            text: qsTr("Waits for the desk")
            elide: Text.ElideRight
            Layout.fillWidth: true
        }
        Label {
            text: column.work.count
            capMm: 4.2
            strong: true
        }
    }
    KeyedList {
        id: list
        objectName: "workList"
        model: column.work
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.name: qsTr("Work list")
        onEntered: (currentItem as T.ItemDelegate)?.clicked()
        Keys.onPressed: event => {
            // A key that is held down answers one row, not all that follow it.
            const answers = !event.isAutoRepeat && column.work.field(currentIndex, "act") === "take-over"
                            && (event.key === Qt.Key_G || event.key === Qt.Key_N);
            if (answers)
                column.answered(column.work.field(currentIndex, "subject"),
                                event.key === Qt.Key_G);
            event.accepted = answers;
        }

        delegate: T.ItemDelegate {
            id: row
            required property int index
            required property string key
            required property int mark
            required property string title
            required property string detail
            required property string act
            required property var subject

            objectName: "work-" + key
            width: ListView.view.width
            leftPadding: 0
            rightPadding: 0
            topPadding: Theme.mm(1.5)
            bottomPadding: Theme.mm(1.5)
            implicitHeight: Math.max(Theme.touch,
                                     implicitContentHeight + topPadding + bottomPadding)
            focusPolicy: Qt.NoFocus
            Accessible.role: Accessible.ListItem
            Accessible.name: title
            Accessible.description: detail
            Accessible.onPressAction: clicked()
            onClicked: column.acted(act, subject)

            background: Rectangle {
                color: row.down && row.act !== "" ? Theme.accentTint : "transparent"
                border.color: Theme.ink
                border.width: row.ListView.isCurrentItem && list.activeFocus ? Theme.focusRing : 0
                Hairline {
                    anchors.bottom: parent.bottom
                    width: parent.width
                }
            }
            contentItem: RowLayout {
                spacing: Theme.mm(1.6)
                StateMark {
                    kind: row.mark
                    Layout.alignment: Qt.AlignTop
                    Accessible.ignored: true
                }
                ColumnLayout {
                    spacing: 0
                    Layout.fillWidth: true
                    Label {
                        text: row.title
                        strong: true
                        color: row.act !== "" ? Theme.accent : Theme.ink
                        wrapMode: Text.WordWrap
                        Layout.fillWidth: true
                        Accessible.ignored: true
                    }
                    Label {
                        text: row.detail
                        soft: true
                        wrapMode: Text.WordWrap
                        Layout.fillWidth: true
                        Accessible.ignored: true
                    }
                    RowLayout {
                        visible: row.act === "take-over"
                        spacing: Theme.gap
                        Layout.fillWidth: true
                        Layout.topMargin: Theme.mm(0.8)
                        Button {
                            objectName: "goOn-" + row.key
                            text: qsTr("Let the new table go on")
                            keyHint: row.ListView.isCurrentItem && list.activeFocus ? qsTr("G") : ""
                            explanation: qsTr("What the old device still sends is kept aside")
                            kind: Button.Primary
                            enabled: !column.busy
                            Layout.fillWidth: true
                            onClicked: column.answered(row.subject, true)
                        }
                        Button {
                            objectName: "no-" + row.key
                            text: qsTr("No")
                            keyHint: row.ListView.isCurrentItem && list.activeFocus ? qsTr("N") : ""
                            explanation: qsTr("The device that writes goes on alone")
                            enabled: !column.busy
                            onClicked: column.answered(row.subject, false)
                        }
                    }
                }
            }
        }
        Label {
            visible: list.count === 0
            text: qsTr("Nothing waits.")
            soft: true
        }
    }
}
