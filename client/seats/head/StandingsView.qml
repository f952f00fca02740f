// The places of a pool, and what they would be without one decision or one result; or the final places
// of a division.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Head

ColumnLayout {
    id: view

    required property StandingsPage page
    property bool narrow: false
    // Read once for all lines.
    readonly property var places: page.places

    readonly property var facts: page.facts

    function enter() {
        if (view.page.division !== "")
            finals.enter();
        else
            list.forceActiveFocus();
    }

    spacing: Theme.gap

    Heading {
        text: view.page.division !== "" ? qsTr("Final places") : qsTr("Standings")
        Layout.fillWidth: true
    }
    StateMark {
        objectName: "eventEnding"
        visible: word !== "" && view.page.division === ""
        kind: view.page.endingMark
        word: view.page.ending
        lines: 4
        Layout.fillWidth: true
    }
    Flow {
        spacing: Theme.mm(1)
        Layout.fillWidth: true
        component PlacesChoice: Button {
            capMm: 2.5
            checkable: true
            autoExclusive: true
            Accessible.role: Accessible.RadioButton
        }
        // Counted: news changes what the buttons say, and the one that has the focus stays.
        Repeater {
            model: view.page.divisions.length
            PlacesChoice {
                required property int index
                readonly property string code: view.page.divisions[index] ?? ""
                objectName: "finals-" + code
                text: view.page.divisions.length > 1 ? qsTr("%1 final places").arg(code)
                                                     : qsTr("Final places")
                checked: view.page.division === code
                onClicked: view.page.division = code
            }
        }
        Repeater {
            model: view.page.pools.length
            PlacesChoice {
                required property int index
                readonly property string pool: view.page.pools[index] ?? ""
                objectName: "standings-" + pool
                text: pool
                checked: view.page.pool === pool
                onClicked: view.page.pool = pool
            }
        }
    }
    StateMark {
        objectName: "standingsProblem"
        visible: word !== ""
        kind: StateMark.Fault
        word: view.page.problem
        lines: 4
        Layout.fillWidth: true
    }
    Label {
        visible: view.page.pools.length === 0 && view.page.divisions.length === 0
        text: qsTr("The tournament is not opened yet.")
        soft: true
    }
    Hairline {
        Layout.fillWidth: true
    }
    FinalPlaces {
        id: finals
        visible: view.page.division !== ""
        page: view.page.finals
        narrow: view.narrow
        Layout.fillWidth: true
        Layout.fillHeight: true
    }
    GridLayout {
        visible: view.page.division === ""
        columns: view.narrow ? 1 : 2
        columnSpacing: Theme.gapWide
        rowSpacing: Theme.gap
        Layout.fillWidth: true
        Layout.fillHeight: true

        ColumnLayout {
            spacing: 0
            Layout.fillWidth: true
            Layout.preferredWidth: 10
            Layout.alignment: Qt.AlignTop
            StateMark {
                objectName: "standingsState"
                visible: word !== ""
                kind: StateMark.Caution
                word: view.page.stateWords
                capMm: 2.5
                lines: 3
                Layout.fillWidth: true
                Layout.bottomMargin: Theme.gap
            }
            RowLayout {
                spacing: Theme.gap
                Layout.fillWidth: true
                Label {
                    text: qsTr("Place")
                    soft: true
                    capMm: 2.5
                    Layout.preferredWidth: Theme.mm(14)
                }
                Label {
                    text: qsTr("Team")
                    soft: true
                    capMm: 2.5
                    Layout.fillWidth: true
                }
                Label {
                    visible: view.page.fact > 0
                    //: Head of a column: the place when one fact is left out
                    text: qsTr("Without it")
                    soft: true
                    capMm: 2.5
                    Layout.preferredWidth: Theme.mm(24)
                }
            }
            Column {
                id: order
                spacing: 0
                Layout.fillWidth: true
                Repeater {
                    // Counted: another fact left out changes what the lines tell, and makes none anew while
                    // they are laid out.
                    model: view.places.length
                    Item {
                        id: place
                        required property int index
                        readonly property var shown: view.places[index]
                                                     ?? { "name": "", "place": "", "without": "", "changed": false }
                        objectName: "standing" + index
                        implicitHeight: Math.max(Theme.mm(8), line.implicitHeight)
                        width: order.width
                        Accessible.role: Accessible.ListItem
                        Accessible.name: qsTr("%1, place %2, without it %3").arg(shown.name)
                                         .arg(shown.place).arg(shown.without)
                        RowLayout {
                            id: line
                            anchors.fill: parent
                            spacing: Theme.gap
                            Label {
                                text: place.shown.place
                                strong: true
                                Layout.preferredWidth: Theme.mm(14)
                                Accessible.ignored: true
                            }
                            Label {
                                text: place.shown.name
                                strong: true
                                wrapMode: Text.WordWrap
                                Layout.fillWidth: true
                                Accessible.ignored: true
                            }
                            StateMark {
                                visible: view.page.fact > 0
                                kind: place.shown.changed ? StateMark.Caution : StateMark.Quiet
                                word: !place.shown.changed ? qsTr("the same")
                                    : place.shown.without !== "" ? place.shown.without
                                                                     : qsTr("none")
                                strong: place.shown.changed
                                Layout.preferredWidth: Theme.mm(24)
                                Accessible.ignored: true
                            }
                        }
                        Hairline {
                            anchors.bottom: parent.bottom
                            width: parent.width
                        }
                    }
                }
            }
        }
        ColumnLayout {
            spacing: 0
            Layout.fillWidth: true
            Layout.fillHeight: true
            Layout.preferredWidth: 12
            Label {
                text: qsTr("Touch a decision or a result: the places without it stand beside")
                soft: true
                capMm: 2.5
                wrapMode: Text.WordWrap
                Layout.fillWidth: true
            }
            KeyedList {
                id: list
                objectName: "standingFacts"
                // Counted, so that the line one stands on stays when it is touched.
                model: view.facts.length
                Layout.fillWidth: true
                Layout.fillHeight: true
                Accessible.name: qsTr("Decisions and results of this pool")
                onEntered: (currentItem as ListRow)?.clicked()
                delegate: ListRow {
                    required property int index
                    readonly property var fact: view.facts[index] ?? { "words": "", "teams": "", "number": 0 }
                    objectName: "without" + index
                    width: ListView.view.width
                    title: fact.words
                    titleLines: 3
                    detail: fact.teams
                    trailing: qsTr("fact %1").arg(fact.number)
                    selected: view.page.fact === fact.number
                    focusPolicy: Qt.NoFocus
                    onClicked: view.page.fact = selected ? 0 : fact.number
                }
            }
        }
    }
}
