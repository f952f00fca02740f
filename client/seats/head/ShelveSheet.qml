// Out of sight for a while, with a reason; it comes back by itself.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Head

Sheet {
    id: sheet

    required property AlertPage page
    property int minutes: 5

    title: qsTr("Shelve")
    note: qsTr("%1 comes back by itself when the time is over.").arg(page.title)
    widthMm: 120
    onAboutToShow: reason.text = ""

    RowLayout {
        spacing: Theme.gap
        Repeater {
            model: [5, 10, 15]
            Button {
                required property int modelData
                objectName: "minutes" + modelData
                text: qsTr("%1 min").arg(modelData)
                checkable: true
                checked: sheet.minutes === modelData
                Accessible.role: Accessible.RadioButton
                onClicked: sheet.minutes = modelData
            }
        }
    }
    Field {
        id: reason
        objectName: "shelveReason"
        label: qsTr("Why it can wait")
        problem: sheet.page.problem
        maximumLength: 250
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            objectName: "recordShelve"
            kind: Button.Primary
            text: qsTr("Shelve for %1 min").arg(sheet.minutes)
            enabled: !sheet.page.busy
            onClicked: sheet.page.shelve(sheet.minutes, reason.text)
        }
    ]
}
