// Jersey numbers as tiles that wrap.
pragma ComponentBehavior: Bound
import QtQuick
import Courthand.Design
import Courthand.Table

Flow {
    id: grid

    property var players: []
    property bool showLegality: false
    property string prefix: "number"
    // The number that is marked as chosen, or -1.
    property int chosen: -1

    signal picked(int number)

    spacing: Theme.gap

    Repeater {
        model: grid.players
        NumberTile {
            required property var modelData
            objectName: grid.prefix + modelData.number
            player: modelData
            marked: modelData.number === grid.chosen
            showLegality: grid.showLegality
            enabled: modelData.number >= 0
            onClicked: grid.picked(modelData.number)
        }
    }
}
