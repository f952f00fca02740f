// A line-up sheet copied number by number: the six as they start, the two libero boxes that a
// person must settle, the captain, and the team list to touch.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: page

    required property TableSeat seat
    readonly property LineUpDraft draft: seat.lineUp
    readonly property SideView side: seat.lineUpOnLeft ? seat.left : seat.right
    readonly property var cells: draft.cells
    readonly property var problems: draft.problems
    // The sheet is drawn with the net above it: IV III II, then V VI I.
    readonly property var order: [3, 2, 1, 4, 5, 0]

    component Cell: CourtTile {
        required property int cell
        readonly property var facts: page.cells[cell] ?? ({})
        objectName: "cell" + cell
        implicitWidth: Theme.mm(30)
        implicitHeight: Theme.mm(22)
        number: facts.none ? "–" : facts.current && page.draft.typed !== "" ? page.draft.typed + "_"
                                                                            : facts.number ?? ""
        numeral: cell < 6 ? facts.label ?? "" : ""
        footnote: facts.none ? qsTr("none") : ""
        captain: facts.captain ?? false
        libero: cell >= 6 && (facts.number ?? "") !== ""
        team: page.side.colour !== "" ? page.side.colour : "transparent"
        offer: facts.current ? CourtTile.Legal : CourtTile.Idle
        spoken: qsTr("%1: %2").arg(facts.label ?? "")
                .arg(facts.none ? qsTr("none") : facts.number ? facts.number : qsTr("empty"))
        onClicked: page.draft.moveTo(cell)
    }

    RowLayout {
        anchors.fill: parent
        spacing: Theme.mm(6)

        ColumnLayout {
            spacing: Theme.gap
            Layout.alignment: Qt.AlignTop

            RowLayout {
                spacing: Theme.gap
                TeamStripe {
                    team: page.side.colour !== "" ? page.side.colour : "transparent"
                    Layout.preferredHeight: Theme.mm(8)
                }
                Heading {
                    text: qsTr("%1, line-up of set %2").arg(page.side.name).arg(page.seat.setNumber)
                    capMm: 3.6
                    elide: Text.ElideRight
                    Layout.fillWidth: true
                }
            }
            Hairline {
                heavy: true
                Layout.fillWidth: true
            }
            Label {
                text: qsTr("net")
                soft: true
                capMm: 2.5
                Layout.alignment: Qt.AlignHCenter
            }
            GridLayout {
                columns: 3
                rowSpacing: Theme.gap
                columnSpacing: Theme.gap
                Repeater {
                    model: page.order
                    Cell {
                        required property int modelData
                        cell: modelData
                    }
                }
            }
            RowLayout {
                spacing: Theme.gap
                Layout.topMargin: Theme.gap
                Repeater {
                    model: 2
                    RowLayout {
                        id: box
                        required property int index
                        spacing: Theme.mm(1)
                        Label {
                            //: Libero box of the sheet, not a side of the court
                            text: qsTr("L%1").arg(box.index + 1)
                            strong: true
                            capMm: 4.2
                        }
                        Cell {
                            cell: 6 + box.index
                            implicitWidth: Theme.mm(17)
                            implicitHeight: Theme.mm(16)
                        }
                        Button {
                            objectName: "none" + box.index
                            text: qsTr("none")
                            explanation: qsTr("Libero box %1 stays empty; somebody was asked")
                                         .arg(box.index + 1)
                            checkable: false
                            onClicked: page.draft.boxNone(box.index)
                        }
                    }
                }
            }
        }
        Hairline {
            upright: true
            Layout.fillHeight: true
        }
        ColumnLayout {
            spacing: Theme.gap
            Layout.fillWidth: true
            Layout.fillHeight: true

            Label {
                text: page.draft.namingCaptain ? qsTr("Touch the captain on court")
                    : page.draft.complete ? qsTr("Every place is filled: compare with the sheet, then record it")
                    : page.draft.boxesSettled || !page.cells.slice(0, 6).every(c => c.number)
                      ? qsTr("Touch or type the numbers in the order of the sheet")
                      : qsTr("Empty libero box: ask the second referee, then touch a number or “none”")
                strong: true
                wrapMode: Text.WordWrap
                Layout.fillWidth: true
            }
            Flickable {
                id: scroll
                Layout.fillWidth: true
                Layout.fillHeight: true
                contentHeight: team.height
                clip: true
                boundsBehavior: Flickable.StopAtBounds
                NumberGrid {
                    id: team
                    width: scroll.width
                    prefix: "roster"
                    players: page.draft.roster
                    onPicked: number => page.draft.put(number)
                }
            }
            Column {
                id: troubles
                spacing: Theme.mm(1)
                visible: page.problems.length > 0
                Layout.fillWidth: true
                Repeater {
                    model: page.problems.slice(0, 3)
                    StateMark {
                        required property string modelData
                        kind: StateMark.Caution
                        word: modelData
                        lines: 2
                        capMm: 2.5
                        width: troubles.width
                    }
                }
            }
            Button {
                objectName: "listedLiberos"
                visible: page.draft.listedLiberos !== ""
                text: qsTr("Write the liberos of the desk's list: %1").arg(page.draft.listedLiberos)
                explanation: qsTr("Only if the line-up sheet says so")
                Layout.fillWidth: true
                onClicked: page.draft.takeListedLiberos()
            }
            RowLayout {
                spacing: Theme.gap
                Layout.fillWidth: true
                Button {
                    objectName: "sameAsLast"
                    visible: page.draft.canCopyLast
                    text: qsTr("Same as last set")
                    onClicked: page.draft.copyLast()
                }
                Button {
                    objectName: "nameCaptain"
                    text: qsTr("Captain")
                    checkable: true
                    checked: page.draft.namingCaptain
                    onClicked: page.draft.namingCaptain = !page.draft.namingCaptain
                }
                Button {
                    visible: page.seat.lineUpCorrection
                    text: qsTr("Leave it")
                    kind: Button.Quiet
                    onClicked: page.seat.closeLineUp()
                }
                Item {
                    Layout.fillWidth: true
                }
                Button {
                    objectName: "undo"
                    text: qsTr("Undo")
                    onClicked: page.seat.undo()
                }
            }
            Button {
                objectName: "handIn"
                kind: page.problems.length > 0 ? Button.Grave : Button.Primary
                enabled: page.draft.complete
                text: page.problems.length > 0
                      ? qsTr("It is written so: record it as handed in")
                      : qsTr("Record the line-up of %1").arg(page.side.name)
                Layout.fillWidth: true
                onClicked: page.seat.handInLineUp()
            }
        }
    }
}
