// The team lists are not in the record yet: take over those of the desk, or write the numbers here.
// A match can always begin: the list of the desk is offered when it comes.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: page

    required property TableSeat seat
    readonly property TeamListDraft draft: seat.teamLists
    // A person may write the lists although the desk has sent them.
    property bool writeHere: false
    readonly property bool writing: writeHere || !seat.deskLists.all

    ColumnLayout {
        anchors.centerIn: parent
        visible: !page.writing
        width: Math.min(parent.width, Theme.mm(150))
        spacing: Theme.mm(6)

        Heading {
            text: qsTr("%1 and %2").arg(page.seat.left.name).arg(page.seat.right.name)
            capMm: 6.4
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Label {
            text: page.seat.next.words
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Button {
            objectName: "takeLists"
            kind: Button.Primary
            text: qsTr("Take over the team lists of the desk")
            Layout.fillWidth: true
            onClicked: page.seat.deskLists.takeMissing()
        }
        Button {
            objectName: "writeHere"
            kind: Button.Quiet
            text: qsTr("Write the numbers here instead")
            Layout.fillWidth: true
            onClicked: page.writeHere = true
        }
    }

    RowLayout {
        anchors.fill: parent
        visible: page.writing
        spacing: Theme.mm(6)

        ColumnLayout {
            spacing: Theme.gap
            Layout.preferredWidth: Theme.mm(88)
            Layout.maximumWidth: Theme.mm(88)
            Layout.fillHeight: true

            Heading {
                text: qsTr("Team lists")
                capMm: 3.6
                Layout.fillWidth: true
            }
            Hairline {
                heavy: true
                Layout.fillWidth: true
            }
            Label {
                text: page.seat.deskLists.any
                      ? qsTr("The desk has sent one list only. Write the other one here.")
                      : page.seat.saving.practice
                      ? qsTr("Practice. Touch or type at least six numbers for each team.")
                      : qsTr("The desk has sent no list. Touch or type the numbers on the list of each team; the list of the desk is offered when it comes.")
                wrapMode: Text.WordWrap
                soft: true
                Layout.fillWidth: true
            }
            Button {
                objectName: "takeLists"
                visible: page.seat.deskLists.any
                text: qsTr("Take over the list of the desk")
                Layout.fillWidth: true
                onClicked: page.seat.deskLists.takeMissing()
            }
            TeamChoice {
                id: team
                seat: page.seat
                Layout.fillWidth: true
                onPicked: isLeft => page.seat.writeListOf(isLeft)
                Component.onCompleted: page.seat.writeListOf(true)
            }
            Label {
                objectName: "listTyped"
                text: page.draft.namingCaptain ? qsTr("Touch the captain")
                    : page.draft.full ? qsTr("The list is full")
                    : page.draft.typed !== "" ? qsTr("number %1_").arg(page.draft.typed)
                    : qsTr("%1 numbers; touch one to take it away").arg(page.draft.listed.length)
                strong: true
                Layout.fillWidth: true
            }
            Flickable {
                id: scroll
                Layout.fillWidth: true
                Layout.fillHeight: true
                contentHeight: written.height
                clip: true
                boundsBehavior: Flickable.StopAtBounds
                NumberGrid {
                    id: written
                    width: scroll.width
                    prefix: "listed"
                    players: page.draft.listed
                    onPicked: number => page.draft.touchListed(number)
                }
            }
            RowLayout {
                spacing: Theme.gap
                Layout.fillWidth: true
                Button {
                    objectName: "listCaptain"
                    text: qsTr("Captain")
                    checkable: true
                    checked: page.draft.namingCaptain
                    enabled: page.draft.listed.length > 0
                    onClicked: page.draft.namingCaptain = !page.draft.namingCaptain
                }
                Item {
                    Layout.fillWidth: true
                }
                Button {
                    objectName: "recordLists"
                    kind: Button.Primary
                    text: qsTr("Record the team lists")
                    enabled: page.draft.complete
                    onClicked: page.seat.recordTeamLists()
                }
            }
        }
        Hairline {
            upright: true
            Layout.fillHeight: true
        }
        Flickable {
            id: pad
            Layout.fillWidth: true
            Layout.fillHeight: true
            contentHeight: all.height
            clip: true
            boundsBehavior: Flickable.StopAtBounds
            Flow {
                id: all
                width: pad.width
                spacing: Theme.gap
                Repeater {
                    model: page.visible && page.writing ? 100 : 0
                    Button {
                        required property int index
                        objectName: "write" + index
                        text: index
                        capMm: 3.6
                        width: Theme.mm(16)
                        height: Theme.touchTile
                        checkable: true
                        checked: page.draft.numbers[index].used
                        onClicked: page.draft.turn(index)
                    }
                }
            }
        }
    }
}
