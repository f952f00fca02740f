// The order of teams that the chain left level, given by lot, play-off or director.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property PoolPage pools
    required property ActPreview preview
    property string by: "lot"

    function done() {
        if (sheet.pools.whole)
            sheet.pools.decide(sheet.by, words.text);
    }

    title: qsTr("Who comes first?")
    note: qsTr("%1. Touch the teams, or press their figures, from best to worst. Touch one again to take it back.").arg(pools.pool)
    widthMm: 140
    onward: decideNow
    takesFigures: true
    onDigitTyped: digit => {
        if (digit > 0 && digit <= sheet.pools.level.length)
            sheet.pools.choose(sheet.pools.level[digit - 1].name);
    }
    onAboutToShow: {
        sheet.by = sheet.pools.usualDecider;
        words.text = "";
    }
    Connections {
        target: sheet.pools
        // Somebody else has decided, or the draw was taken back.
        function onLevelChanged() {
            if (sheet.visible && sheet.pools.level.length === 0)
                sheet.close();
        }
    }
    OwnAct {
        owner: sheet
        preview: sheet.preview
    }

    Column {
        id: teams
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            // Counted: a touch chooses a place, which changes the list while its row still handles the touch.
            model: sheet.pools.level.length
            ListRow {
                id: team
                required property int index
                readonly property var level: sheet.pools.level[index] ?? { "name": "", "place": 0 }
                objectName: "level-" + level.name
                title: qsTr("%1  %2").arg(index + 1).arg(level.name)
                trailing: level.place > 0 ? qsTr("%1.").arg(level.place) : ""
                selected: level.place > 0
                width: teams.width
                onClicked: sheet.pools.choose(team.level.name)
            }
        }
    }
    RowLayout {
        spacing: Theme.gap
        Repeater {
            model: [["lot", qsTr("By lot")], ["play-off", qsTr("By a play-off")],
                    ["director", qsTr("By the director")]]
            Button {
                required property var modelData
                objectName: "by-" + modelData[0]
                text: modelData[1]
                checkable: true
                autoExclusive: true
                checked: sheet.by === modelData[0]
                onClicked: sheet.by = modelData[0]
            }
        }
    }
    Field {
        id: words
        objectName: "decisionWords"
        label: qsTr("How it was done, if you like")
        maximumLength: 250
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            id: decideNow
            objectName: "decideNow"
            kind: Button.Primary
            text: qsTr("See what it changes")
            keyHint: qsTr("Enter")
            enabled: sheet.pools.whole
            onClicked: sheet.done()
        }
    ]
}
