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
    Label {
        text: qsTr("The program advises; referees decide.")
        soft: true
        capMm: 2.5
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
}
