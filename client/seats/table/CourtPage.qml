// The page of play: two rally areas at the edges, the floor between them, and what comes next.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

ColumnLayout {
    id: page

    required property TableSeat seat
    property alias floorItem: floorPlan

    spacing: Theme.gap

    ScoreLine {
        seat: page.seat
        Layout.fillWidth: true
    }
    RowLayout {
        spacing: Theme.gapWide
        Layout.fillWidth: true
        Layout.fillHeight: true

        RallyArea {
            objectName: "wonLeft"
            side: page.seat.left
            enabled: page.seat.rallyOpen
            Layout.fillHeight: true
            onClicked: page.seat.rallyWon(true)
        }
        CourtFloor {
            id: floorPlan
            leftPlaces: page.seat.left.places
            rightPlaces: page.seat.right.places
            leftLiberos: page.seat.left.liberos
            rightLiberos: page.seat.right.liberos
            leftColor: page.seat.left.colour !== "" ? page.seat.left.colour : "transparent"
            rightColor: page.seat.right.colour !== "" ? page.seat.right.colour : "transparent"
            Layout.fillWidth: true
            Layout.fillHeight: true
            onPlaceTouched: (onLeft, position) => page.seat.touchPlace(onLeft, position)
            onLiberoTouched: (onLeft, box) => page.seat.touchLibero(onLeft, box)
        }
        RallyArea {
            objectName: "wonRight"
            side: page.seat.right
            enabled: page.seat.rallyOpen
            Layout.fillHeight: true
            onClicked: page.seat.rallyWon(false)
        }
    }
    NextSlip {
        seat: page.seat
        Layout.fillWidth: true
    }
    NoticeSlip {
        seat: page.seat
        Layout.fillWidth: true
    }
}
