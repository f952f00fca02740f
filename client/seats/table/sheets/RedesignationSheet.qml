// Re-designation: the old libero and why he cannot go on, the new one, the referee's consent.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "redesignation"
    word: qsTr("Re-designation")
    key: "R"
    place: TableSheet.BarRight
    rank: 20

    readonly property RedesignationDraft draft: seat.redesignation

    title: qsTr("Re-designation of a libero")
    widthMm: 190
    takesFigures: true
    onDigitTyped: digit => draft.typeDigit(digit)
    onErased: draft.eraseTyped()
    onEntered: draft.typed !== "" ? draft.acceptTyped() : draft.complete ? finish() : undefined

    function ask() {
        seat.beginRedesignation(true);
        open();
    }
    function finish() {
        seat.recordRedesignation();
        close();
    }

    TeamChoice {
        seat: sheet.seat
        isLeft: sheet.draft.onLeft
        Layout.fillWidth: true
        onPicked: isLeft => sheet.seat.beginRedesignation(isLeft)
    }
    // One line that is always there, so that nothing moves under the finger when it speaks up.
    Item {
        Layout.fillWidth: true
        Layout.preferredHeight: Theme.mm(6)
        Label {
            visible: sheet.draft.refusal === ""
            anchors.fill: parent
            text: qsTr("Medical staff and the local rules decide whether an injured player may go on.")
            soft: true
            capMm: 2.5
            elide: Text.ElideRight
        }
        StateMark {
            objectName: "refusal"
            visible: sheet.draft.refusal !== ""
            anchors.fill: parent
            kind: StateMark.Caution
            word: sheet.draft.refusal
            capMm: 2.5
        }
    }
    RowLayout {
        spacing: Theme.mm(6)
        Layout.fillWidth: true
        ColumnLayout {
            spacing: Theme.gap
            Layout.alignment: Qt.AlignTop
            Label {
                text: qsTr("Who cannot go on")
                soft: true
                capMm: 2.5
            }
            NumberGrid {
                prefix: "old"
                players: sheet.draft.liberos
                Layout.preferredWidth: Theme.mm(43)
                onPicked: number => sheet.draft.pickOld(number)
            }
        }
        ColumnLayout {
            spacing: Theme.gap
            Layout.fillWidth: true
            Layout.alignment: Qt.AlignTop
            Label {
                text: qsTr("Why")
                soft: true
                capMm: 2.5
            }
            Flow {
                spacing: Theme.gap
                Layout.fillWidth: true
                Repeater {
                    model: sheet.draft.causes
                    Button {
                        required property int index
                        required property var modelData
                        objectName: "cause" + index
                        text: modelData.word
                        capMm: 2.6
                        checkable: true
                        autoExclusive: true
                        checked: modelData.chosen
                        onClicked: sheet.draft.pickCause(index)
                    }
                }
            }
        }
    }
    Label {
        text: qsTr("New libero %1").arg(sheet.draft.typed !== "" ? "   " + sheet.draft.typed + "_" : "")
        soft: true
        capMm: 2.5
    }
    NumberGrid {
        prefix: "new"
        players: sheet.draft.candidates
        showLegality: true
        Layout.fillWidth: true
        onPicked: number => sheet.draft.pickNew(number)
    }
    actions: [
        Button {
            objectName: "consent"
            text: sheet.draft.consent ? qsTr("✓ the first referee consents")
                                      : qsTr("The first referee consents")
            checkable: true
            checked: sheet.draft.consent
            onClicked: sheet.draft.consent = !sheet.draft.consent
        },
        Item {
            Layout.fillWidth: true
        },
        Button {
            objectName: "recordRedesignation"
            kind: sheet.draft.refusal !== "" ? Button.Grave : Button.Primary
            text: sheet.draft.refusal !== "" ? qsTr("It happened: record it")
                                             : qsTr("Record the re-designation")
            enabled: sheet.draft.complete
            onClicked: sheet.finish()
        }
    ]
}
