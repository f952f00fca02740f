// The bracket of a division, drawn. Arrows go from match to match, + and - zoom, 0 shows all of it;
// two fingers do the same.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: page

    // Keys go to the page that is shown.
    enabled: visible

    required property EventDesk desk
    readonly property BracketPage bracket: desk.bracket
    property string current: ""
    // The boxes of a large bracket take a while to make: not before somebody looks at them.
    property bool seen: false
    onVisibleChanged: page.seen = page.seen || page.visible
    Component.onCompleted: page.seen = page.visible

    signal matchWanted(string match)
    signal bracketWanted()

    function enter() {
        view.forceActiveFocus();
    }
    function open() {
        if (page.current !== "")
            page.matchWanted(page.current);
    }

    spacing: Theme.gap

    PageHead {
        title: qsTr("Bracket")
        act: qsTr("Make a bracket")
        actName: "makeBracket"
        Layout.fillWidth: true
        onActed: page.bracketWanted()
        Button {
            objectName: "zoomOut"
            kind: Button.Quiet
            text: qsTr("Smaller")
            keyHint: qsTr("-")
            onClicked: view.zoomBy(1 / 1.25)
        }
        Button {
            objectName: "zoomIn"
            kind: Button.Quiet
            text: qsTr("Larger")
            keyHint: qsTr("+")
            onClicked: view.zoomBy(1.25)
        }
        Button {
            objectName: "zoomAll"
            kind: Button.Quiet
            text: qsTr("All")
            keyHint: qsTr("0")
            onClicked: view.zoomToAll()
        }
        DivisionPicker {
            desk: page.desk
        }
    }
    Hairline {
        Layout.fillWidth: true
    }
    Label {
        visible: page.bracket.columns === 0
        objectName: "noBracket"
        text: page.desk.opened ? qsTr("No bracket is made in %1.").arg(page.desk.divisionName)
                               : qsTr("No division is open yet. Open one on the page Teams.")
        soft: true
        verticalAlignment: Text.AlignTop
        Layout.fillWidth: true
        Layout.fillHeight: true
    }
    Flickable {
        id: view
        objectName: "bracketView"

        property real zoom: 1
        readonly property real boxWidth: Theme.mm(50)
        readonly property real boxHeight: Theme.mm(15.5)
        readonly property real across: boxWidth + Theme.mm(9)
        readonly property real down: boxHeight + Theme.mm(2.5)
        readonly property real wholeWidth: page.bracket.columns * across
        readonly property real wholeHeight: page.bracket.lastRow * down
        readonly property real leastZoom: 0.16
        // From afar a box shows no more than the number of its match.
        readonly property bool overview: zoom < 0.5
        // A line stays as thick as it is whatever the zoom.
        readonly property real thickness: Math.max(1, Theme.hair) / Math.min(1, zoom)

        function zoomTo(factor: real) {
            const middleX = (contentX + width / 2) / zoom;
            const middleY = (contentY + height / 2) / zoom;
            zoom = Math.max(leastZoom, Math.min(2, factor));
            contentX = Math.max(0, Math.min(middleX * zoom - width / 2, contentWidth - width));
            contentY = Math.max(0, Math.min(middleY * zoom - height / 2, contentHeight - height));
        }
        function zoomBy(factor: real) {
            zoomTo(zoom * factor);
        }
        function zoomToAll() {
            zoomTo(Math.min(1, width / wholeWidth, height / wholeHeight));
        }
        function bring(match: string) {
            page.current = match;
            const row = page.bracket.boxes.rowOf(match);
            if (row < 0)
                return;
            const x = Number(page.bracket.boxes.field(row, "column")) * across * zoom;
            const y = (Number(page.bracket.boxes.field(row, "row")) - 0.5) * down * zoom;
            const w = across * zoom;
            const h = down * zoom;
            if (x < contentX || x + w > contentX + width)
                contentX = Math.max(0, Math.min(x + w / 2 - width / 2, contentWidth - width));
            if (y < contentY || y + h > contentY + height)
                contentY = Math.max(0, Math.min(y + h / 2 - height / 2, contentHeight - height));
        }
        function go(direction: int) {
            bring(page.bracket.beside(page.current, direction));
        }

        visible: page.bracket.columns > 0
        contentWidth: Math.max(width, wholeWidth * zoom)
        contentHeight: Math.max(height, wholeHeight * zoom)
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        activeFocusOnTab: true
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.role: Accessible.Grouping
        Accessible.name: qsTr("Bracket")
        Keys.onLeftPressed: go(BracketPage.Left)
        Keys.onRightPressed: go(BracketPage.Right)
        Keys.onUpPressed: go(BracketPage.Up)
        Keys.onDownPressed: go(BracketPage.Down)
        // A key that is still held from the sheet before opens nothing.
        Keys.onReturnPressed: event => {
            if (!event.isAutoRepeat)
                page.open();
        }
        Keys.onEnterPressed: event => {
            if (!event.isAutoRepeat)
                page.open();
        }
        Keys.onPressed: event => {
            event.accepted = true;
            if (event.key === Qt.Key_Plus)
                zoomBy(1.25);
            else if (event.key === Qt.Key_Minus)
                zoomBy(1 / 1.25);
            else if (event.key === Qt.Key_0)
                zoomToAll();
            else
                event.accepted = false;
        }

        PinchHandler {
            target: null
            property real before: 1
            onActiveChanged: before = view.zoom
            onActiveScaleChanged: if (active)
                                      view.zoomTo(before * activeScale)
        }

        Item {
            id: drawing
            width: view.wholeWidth
            height: view.wholeHeight
            scale: view.zoom
            transformOrigin: Item.TopLeft

            Repeater {
                model: page.seen ? page.bracket.headings : null
                Label {
                    required property string key
                    required property real row
                    required property string title
                    objectName: "tree-" + key
                    x: Theme.mm(1)
                    y: row * view.down + Theme.mm(1)
                    text: title
                    strong: true
                    capMm: view.overview ? 6 : 2.9
                }
            }
            Repeater {
                model: page.seen ? page.bracket.lines : null
                BracketLine {
                    required property int fromColumn
                    required property real fromRow
                    required property int toColumn
                    required property real toRow
                    required property bool second
                    thickness: view.thickness
                    fromX: fromColumn * view.across + view.boxWidth
                    fromY: fromRow * view.down
                    toX: toColumn * view.across
                    toY: toRow * view.down + (second ? 1 : -1) * Theme.mm(2.4)
                         + Theme.mm(1.6)
                }
            }
            Repeater {
                model: page.seen ? page.bracket.boxes : null
                BracketBox {
                    required property int column
                    required property real row
                    x: column * view.across
                    y: row * view.down - view.boxHeight / 2
                    width: view.boxWidth
                    height: view.boxHeight
                    current: page.current === key && view.activeFocus
                    overview: view.overview
                    thickness: view.thickness
                    onClicked: {
                        view.bring(key);
                        page.matchWanted(key);
                    }
                }
            }
        }
    }
}
