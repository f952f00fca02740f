// What the rules say about what stands: the most pressing verdict with rule and remedy, and how
// many more there are. Without one: the last entry. Its height never changes.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: slip

    required property TableSeat seat
    readonly property int count: seat.notices.length
    readonly property int worst: {
        for (let i = 0; i < count; ++i)
            if (seat.notices[i].open)
                return i;
        return 0;
    }
    readonly property var notice: count > 0 ? seat.notices[worst] : ({})

    // What a person must know when no verdict stands: in this order.
    readonly property string help: seat.problem !== "" ? seat.problem
        : seat.news !== "" ? seat.news : seat.syncHelp

    signal rulingAsked(int notice)

    implicitHeight: Theme.mm(13)

    Hairline {
        width: parent.width
    }
    RowLayout {
        anchors.fill: parent
        anchors.topMargin: Theme.mm(0.5)
        spacing: Theme.gap

        StateMark {
            objectName: "noticeMark"
            visible: slip.count > 0
            kind: slip.notice.open ? StateMark.Fault : StateMark.Caution
            word: slip.notice.phase ?? ""
        }
        ColumnLayout {
            spacing: 0
            Layout.fillWidth: true
            Label {
                objectName: "noticeText"
                text: slip.count > 0 ? slip.notice.text
                    : slip.help !== "" ? slip.help
                    : slip.seat.undoWords !== "" ? qsTr("Last entry: %1").arg(slip.seat.undoWords) : ""
                strong: slip.count > 0 || slip.seat.problem !== ""
                soft: slip.count === 0 && slip.help === ""
                capMm: 2.6
                // Two lines fit; a verdict needs the second one for its remedy.
                wrapMode: slip.count > 0 ? Text.NoWrap : Text.WordWrap
                maximumLineCount: slip.count > 0 ? 1 : 2
                elide: Text.ElideRight
                Layout.fillWidth: true
                Accessible.role: slip.count > 0 || slip.help !== "" ? Accessible.AlertMessage
                                                                    : Accessible.StaticText
            }
            Label {
                objectName: "noticeRemedy"
                visible: slip.count > 0
                text: slip.notice.rule ? qsTr("%1 (%2)").arg(slip.notice.remedy).arg(slip.notice.rule)
                                       : slip.notice.remedy ?? ""
                capMm: 2.5
                elide: Text.ElideRight
                Layout.fillWidth: true
            }
        }
        Button {
            objectName: "ruling"
            visible: slip.count > 0
            text: slip.count > 1 ? qsTr("Ruling (%1)").arg(slip.count) : qsTr("Ruling")
            onClicked: slip.rulingAsked(slip.worst)
        }
    }
}
