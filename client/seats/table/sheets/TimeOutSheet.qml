// Time-out: whose it is; then the card for the second referee, and afterwards the same six.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "timeOut"
    word: qsTr("Time-out")
    key: "T"
    place: TableSheet.BarLeft
    rank: 10

    property bool called: false

    title: called ? qsTr("Time-out: tell the second referee") : qsTr("Time-out: which team?")
    closeWord: called ? qsTr("Back to the court") : qsTr("Close")
    onAboutToShow: called = false

    component Team: ColumnLayout {
        id: team
        required property SideView side
        property bool isLeft: true

        spacing: Theme.gap
        Layout.fillWidth: true
        Layout.preferredWidth: 1

        RowLayout {
            spacing: Theme.gap
            TeamStripe {
                team: team.side.colour !== "" ? team.side.colour : "transparent"
                Layout.preferredHeight: Theme.mm(7)
            }
            Heading {
                text: team.side.name
                elide: Text.ElideRight
                Layout.fillWidth: true
            }
        }
        Label {
            objectName: team.isLeft ? "tellLeft" : "tellRight"
            text: team.side.liberoWords
            strong: true
            capMm: 3.6
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Label {
            text: qsTr("time-outs %1 of %2").arg(team.side.timeOuts).arg(team.side.timeOutLimit)
            soft: true
        }
        Hairline {
            Layout.fillWidth: true
        }
        Label {
            text: team.side.sixWords
            capMm: 2.6
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Button {
            objectName: team.isLeft ? "sameLeft" : "sameRight"
            text: team.side.awaitingSix ? qsTr("The same six are back") : qsTr("✓ the same six")
            kind: team.side.awaitingSix ? Button.Primary : Button.Quiet
            enabled: team.side.awaitingSix
            Layout.fillWidth: true
            onClicked: {
                sheet.seat.next.sixBack(team.isLeft);
                if (!sheet.seat.left.awaitingSix && !sheet.seat.right.awaitingSix)
                    sheet.close();
            }
        }
    }

    RowLayout {
        visible: !sheet.called
        spacing: Theme.gapWide
        Layout.fillWidth: true
        Repeater {
            // Counted: another match in the window has other sides, and these are its own.
            model: 2
            Button {
                required property int index
                readonly property SideView side: index === 0 ? sheet.seat.left : sheet.seat.right
                objectName: index === 0 ? "timeOutLeft" : "timeOutRight"
                text: qsTr("%1\n%2 of %3 used").arg(side.name).arg(side.timeOuts)
                      .arg(side.timeOutLimit)
                kind: Button.Plain
                capMm: 3.4
                implicitHeight: Theme.touchRally
                Layout.fillWidth: true
                Layout.preferredWidth: 1
                onClicked: {
                    if (sheet.seat.acts.attempt("time_out", { team: index === 0 }))
                        sheet.called = true;
                    else
                        sheet.close();
                }
            }
        }
    }
    RowLayout {
        visible: sheet.called
        spacing: Theme.mm(6)
        Layout.fillWidth: true
        Team {
            side: sheet.seat.left
        }
        Hairline {
            upright: true
            Layout.fillHeight: true
        }
        Team {
            side: sheet.seat.right
            isLeft: false
        }
    }
    StateMark {
        visible: sheet.called && sheet.clock.running
        kind: StateMark.Notice
        word: qsTr("%1 s").arg(sheet.clock.remaining)
        capMm: 4.2
    }
}
