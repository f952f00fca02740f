// Why a team holds its final place: its way back from there, match by match, and through its pool.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property PlacePage page

    title: page.title
    note: qsTr("The way to this place, from its end back to its beginning")
    widthMm: 170
    onward: closing
    onClosed: page.leave()

    Column {
        id: reasons
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: sheet.page.reasons.length
            Label {
                required property int index
                objectName: "placeReason" + index
                text: sheet.page.reasons[index] ?? ""
                wrapMode: Text.WordWrap
                width: reasons.width
            }
        }
    }
}
