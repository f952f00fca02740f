// A team at the head of the sheet: colour, letter, name, and what it has used up.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: head

    required property SideView side
    property bool mirrored: false

    implicitHeight: column.implicitHeight

    TeamStripe {
        id: stripe
        team: head.side.colour !== "" ? head.side.colour : "transparent"
        width: Theme.mm(2.4)
        height: parent.height
        x: head.mirrored ? parent.width - width : 0
    }
    ColumnLayout {
        id: column
        anchors.verticalCenter: parent.verticalCenter
        anchors.left: head.mirrored ? parent.left : stripe.right
        anchors.right: head.mirrored ? stripe.left : parent.right
        anchors.leftMargin: Theme.gap
        anchors.rightMargin: Theme.gap
        spacing: Theme.mm(1)

        RowLayout {
            layoutDirection: head.mirrored ? Qt.RightToLeft : Qt.LeftToRight
            spacing: Theme.gap
            Layout.fillWidth: true
            Label {
                text: head.side.letter
                capMm: 4.2
                strong: true
                soft: true
            }
            Label {
                text: head.side.name
                capMm: 4.2
                strong: true
                elide: Text.ElideRight
                horizontalAlignment: head.mirrored ? Text.AlignRight : Text.AlignLeft
                Layout.fillWidth: true
            }
        }
        Label {
            Layout.fillWidth: true
            text: qsTr("time-outs %1 of %2   subs %3 of %4")
                  .arg(head.side.timeOuts).arg(head.side.timeOutLimit)
                  .arg(head.side.substitutions).arg(head.side.substitutionLimit)
            capMm: 2.5
            soft: true
            elide: Text.ElideRight
            horizontalAlignment: head.mirrored ? Text.AlignRight : Text.AlignLeft
        }
    }
}
