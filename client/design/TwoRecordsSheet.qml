// Two records of one match side by side, from where they part, and the decision which one counts.
// `page` is the C++ ForkPage, which head and desk share.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts

Sheet {
    id: sheet

    required property var page
    readonly property bool narrow: width < Theme.mm(140)

    // Placed by widths and not by a layout: a text that wraps tells its height only then.
    component Side: Column {
        id: side
        property string words: ""
        property string origin: ""
        property bool soft: false
        Label {
            width: side.width
            text: side.words
            soft: side.soft
            wrapMode: Text.WordWrap
        }
        Label {
            width: side.width
            visible: text !== ""
            text: side.origin
            capMm: 2.5
            soft: true
            wrapMode: Text.WordWrap
        }
    }

    title: qsTr("Two records of one match")
    note: page.where
    widthMm: 260
    onAboutToShow: words.text = ""

    Label {
        objectName: "forkSummary"
        visible: text !== ""
        text: sheet.page.summary
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    Busy {
        visible: sheet.page.busy
        words: qsTr("Reading both records")
    }
    StateMark {
        objectName: "forkProblem"
        visible: sheet.page.problem !== ""
        kind: StateMark.Fault
        word: sheet.page.problem
        lines: 3
        Layout.fillWidth: true
    }
    RowLayout {
        visible: rows.count > 0
        spacing: Theme.gap
        Layout.fillWidth: true
        Item {
            Layout.preferredWidth: Theme.mm(9)
        }
        Label {
            text: sheet.narrow ? qsTr("The record; below it, what lies beside it") : qsTr("The record")
            strong: true
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
            Layout.preferredWidth: 10
        }
        Label {
            visible: !sheet.narrow
            text: qsTr("Beside it")
            strong: true
            Layout.fillWidth: true
            Layout.preferredWidth: 10
        }
    }
    Column {
        id: lines
        visible: rows.count > 0
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            id: rows
            model: sheet.page.rows
            Column {
                id: row
                required property int index
                required property var modelData
                readonly property real sideWidth: (width - number.width - Theme.gap)
                                                  / (sheet.narrow ? 1 : 2) - Theme.gap
                objectName: "forkRow" + row.index
                spacing: Theme.mm(0.8)
                width: lines.width
                Accessible.role: Accessible.ListItem
                Accessible.name: qsTr("entry %1").arg(row.modelData.number)
                Hairline {
                    width: row.width
                }
                Row {
                    spacing: Theme.gap
                    Label {
                        id: number
                        text: row.modelData.number
                        soft: true
                        horizontalAlignment: Text.AlignRight
                        width: Theme.mm(9)
                    }
                    Grid {
                        columns: sheet.narrow ? 1 : 2
                        columnSpacing: Theme.gap
                        rowSpacing: Theme.mm(0.8)
                        Side {
                            objectName: "forkRecord" + row.index
                            width: row.sideWidth
                            words: row.modelData.record !== "" ? row.modelData.record : qsTr("nothing")
                            origin: row.modelData.recordBy
                            soft: row.modelData.record === ""
                        }
                        Side {
                            objectName: "forkBranch" + row.index
                            width: row.sideWidth
                            words: row.modelData.branch === "" ? qsTr("nothing")
                                   : row.modelData.same ? qsTr("the same: %1").arg(row.modelData.branch)
                                                        : row.modelData.branch
                            origin: row.modelData.branchBy
                            soft: row.modelData.branch === "" || row.modelData.same
                        }
                    }
                }
            }
        }
    }
    Label {
        objectName: "forkMore"
        visible: text !== ""
        text: sheet.page.more
        soft: true
        Layout.fillWidth: true
    }
    Hairline {
        Layout.fillWidth: true
    }
    Field {
        id: words
        objectName: "forkNote"
        label: qsTr("Note for the table, if any (no health or personal details)")
        maximumLength: 120
        Layout.fillWidth: true
    }
    Label {
        text: qsTr("No record is changed by this. The table is told, and a person enters by hand what is missing. The number of the writer goes up each time another device goes on.")
        soft: true
        capMm: 2.5
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    actions: [
        Item {
            visible: !sheet.narrow
            Layout.fillWidth: true
        },
        Button {
            objectName: "forkEnterAgain"
            text: qsTr("Enter these again at the table")
            explanation: qsTr("What lies beside the record is entered again by hand")
            enabled: sheet.page.maySettle
            Layout.fillWidth: sheet.narrow
            onClicked: sheet.page.settle(true, words.text)
        },
        Button {
            objectName: "forkRecordStands"
            kind: Button.Primary
            text: qsTr("The record stands")
            explanation: qsTr("Nothing of what lies beside it is entered")
            enabled: sheet.page.maySettle
            Layout.fillWidth: sheet.narrow
            onClicked: sheet.page.settle(false, words.text)
        }
    ]
}
