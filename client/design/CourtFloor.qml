// The floor as the assistant scorer sees it from the table: the left team faces right, the right
// team is the same turned round; the liberos sit outside the end line, beside their back row.
//
//      left  V  IV │ II   I  right
//            VI III│ III  VI
//   near     I  II │ IV   V           <- table
//
// `leftPlaces` and `rightPlaces` are lists of six places by position (index 0 is position I), `leftLiberos`
// and `rightLiberos` lists of up to two: maps with the properties of CourtTile.
pragma ComponentBehavior: Bound
import QtQuick

Item {
    id: court

    property var leftPlaces: []
    property var rightPlaces: []
    property var leftLiberos: []
    property var rightLiberos: []
    property color leftColor: "transparent"
    property color rightColor: "transparent"
    property bool interactive: true
    property bool showLiberos: true

    signal placeTouched(bool onLeft, int position)
    signal liberoTouched(bool onLeft, int box)

    // Row (from the far side) and column (0 back, 1 front) of each position of the left team.
    readonly property var rows: [2, 2, 1, 0, 0, 1]
    readonly property var columns: [0, 1, 1, 1, 0, 0]

    readonly property real benchWidth: showLiberos ? tileWidth + Theme.gap : 0
    readonly property real gap: Theme.gap
    readonly property real tileWidth: Math.floor((width - 4 * floorPad - netWidth
        - (showLiberos ? 4 : 2) * gap) / (showLiberos ? 6 : 4))
    readonly property real tileHeight: Math.floor((height - 2 * floorPad - 2 * gap) / 3)
    readonly property real floorPad: Theme.mm(2)
    readonly property real netWidth: Theme.mm(2)

    implicitWidth: Theme.mm(150)
    implicitHeight: Theme.mm(60)
    Accessible.role: Accessible.Grouping
    Accessible.name: qsTr("Court, seen from the table")

    function place(list: var, index: int): var {
        return list && index < list.length ? list[index] : ({});
    }

    component Tile: CourtTile {
        property var facts: ({})
        width: court.tileWidth
        height: court.tileHeight
        enabled: court.interactive
        number: facts.number ?? ""
        numeral: facts.numeral ?? ""
        captain: facts.captain ?? false
        libero: facts.libero ?? false
        footnote: facts.footnote ?? ""
        whyNot: facts.whyNot ?? ""
        triangle: facts.triangle ?? false
        serving: facts.serving ?? false
        away: facts.away ?? false
        offer: facts.offer ?? CourtTile.Idle
        spoken: facts.spoken ?? ""
    }

    Rectangle {
        id: floorArea
        x: court.benchWidth
        width: court.width - 2 * court.benchWidth
        height: court.height
        color: Theme.floor
        border.color: Theme.line
        border.width: Theme.hair
    }
    // Attack lines between back and front row, and the net.
    Rectangle {
        x: floorArea.x + court.floorPad + court.tileWidth + court.gap / 2 - width / 2
        width: Theme.hair
        height: court.height
        color: Theme.line
    }
    Rectangle {
        x: floorArea.x + floorArea.width - court.floorPad - court.tileWidth - court.gap / 2
           - width / 2
        width: Theme.hair
        height: court.height
        color: Theme.line
    }
    Rectangle {
        x: court.width / 2 - width / 2
        y: -Theme.mm(1)
        width: Math.max(2, Theme.mm(0.8))
        height: court.height + Theme.mm(2)
        color: Theme.ink
    }

    Repeater {
        model: 6
        Tile {
            required property int index
            objectName: "left" + index
            facts: court.place(court.leftPlaces, index)
            team: court.leftColor
            x: floorArea.x + court.floorPad
               + court.columns[index] * (court.tileWidth + court.gap)
            y: court.floorPad + court.rows[index] * (court.tileHeight + court.gap)
            onClicked: court.placeTouched(true, index)
        }
    }
    Repeater {
        model: 6
        Tile {
            required property int index
            objectName: "right" + index
            facts: court.place(court.rightPlaces, index)
            team: court.rightColor
            x: floorArea.x + floorArea.width - court.floorPad - court.tileWidth
               - court.columns[index] * (court.tileWidth + court.gap)
            y: court.floorPad + (2 - court.rows[index]) * (court.tileHeight + court.gap)
            onClicked: court.placeTouched(false, index)
        }
    }
    Repeater {
        model: court.showLiberos ? 2 : 0
        Tile {
            required property int index
            objectName: "leftLibero" + index
            visible: (facts.number ?? "") !== ""
            facts: court.place(court.leftLiberos, index)
            team: court.leftColor
            x: 0
            y: court.floorPad + (1 + index) * (court.tileHeight + court.gap)
            onClicked: court.liberoTouched(true, index)
        }
    }
    Repeater {
        model: court.showLiberos ? 2 : 0
        Tile {
            required property int index
            objectName: "rightLibero" + index
            visible: (facts.number ?? "") !== ""
            facts: court.place(court.rightLiberos, index)
            team: court.rightColor
            x: court.width - court.tileWidth
            y: court.floorPad + (1 - index) * (court.tileHeight + court.gap)
            onClicked: court.liberoTouched(false, index)
        }
    }
}
