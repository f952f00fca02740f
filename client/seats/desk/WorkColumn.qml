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

    signal acted(string name, var subject)

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
    ListView {
        id: list
        objectName: "workList"
        model: column.work
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        activeFocusOnTab: true
        keyNavigationEnabled: true
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.role: Accessible.List
        Accessible.name: qsTr("Work list")
        Keys.onReturnPressed: (currentItem as T.ItemDelegate)?.clicked()

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
                        capMm: 2.5
                        soft: true
                        wrapMode: Text.WordWrap
                        Layout.fillWidth: true
                        Accessible.ignored: true
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
