// Why a team holds its final place: its way back from there, match by match, and through its pool.
// `page` is the C++ PlacePage.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts

Sheet {
    id: sheet

    required property var page

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
