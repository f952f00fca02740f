// The rule, the remedy as of now, and the score with and without it.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Head

ColumnLayout {
    id: facts

    required property AlertPage page

    spacing: Theme.gap

    component Fact: ColumnLayout {
        id: fact
        property string name: ""
        property string words: ""
        visible: words !== ""
        spacing: 0
        Layout.fillWidth: true
        Label {
            text: fact.name
            soft: true
            capMm: 2.5
        }
        Label {
            text: fact.words
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
    }

    Fact {
        objectName: "rule"
        name: qsTr("Rule")
        words: facts.page.rule
    }
    Fact {
        name: qsTr("Since")
        words: facts.page.since
    }
    Fact {
        name: qsTr("Remedy if the fault stands")
        words: facts.page.remedy
    }
    ColumnLayout {
        visible: facts.page.scoreIfApplied !== ""
        spacing: 0
        Label {
            text: qsTr("Score now, and if the remedy is applied")
            soft: true
            capMm: 2.5
        }
        RowLayout {
            spacing: Theme.gap
            Label {
                text: facts.page.scoreNow
                capMm: 5
            }
            Label {
                text: "→"
                capMm: 4
                Accessible.name: qsTr("becomes")
            }
            Label {
                objectName: "scoreIfApplied"
                text: facts.page.scoreIfApplied
                capMm: 5
                font.weight: Font.Bold
            }
        }
        Label {
            visible: text !== ""
            text: facts.page.servesIfApplied
        }
    }
    ColumnLayout {
        objectName: "ruledStandings"
        visible: facts.page.standingsWords !== ""
        spacing: Theme.mm(1)
        Layout.fillWidth: true
        Label {
            objectName: "ruledStandingsWords"
            text: facts.page.standingsWords
            soft: true
            capMm: 2.5
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Column {
            id: order
            spacing: Theme.mm(1)
            Layout.fillWidth: true
            Repeater {
                // Counted: a rally changes what the lines tell, and makes none anew.
                model: facts.page.standings.length
                RowLayout {
                    id: place
                    required property int index
                    readonly property var shown: facts.page.standings[index]
                                                 ?? { "name": "", "place": "", "without": "", "changed": false }
                    objectName: "ruledPlace" + index
                    spacing: Theme.gap
                    width: order.width
                    Accessible.role: Accessible.ListItem
                    Accessible.name: qsTr("%1, place %2, with the remedy %3").arg(shown.name)
                                     .arg(shown.place).arg(shown.without)
                    Label {
                        text: place.shown.place
                        strong: true
                        Layout.preferredWidth: Theme.mm(14)
                        Accessible.ignored: true
                    }
                    Label {
                        text: place.shown.name
                        wrapMode: Text.WordWrap
                        Layout.fillWidth: true
                        Accessible.ignored: true
                    }
                    StateMark {
                        kind: place.shown.changed ? StateMark.Caution : StateMark.Quiet
                        word: !place.shown.changed ? qsTr("the same")
                            : place.shown.without !== "" ? place.shown.without
                                                             : qsTr("none")
                        strong: place.shown.changed
                        Layout.preferredWidth: Theme.mm(24)
                        Accessible.ignored: true
                    }
                }
            }
        }
    }
    Label {
        text: qsTr("The program advises; referees decide.")
        soft: true
        capMm: 2.5
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
}
