// Who works one match: work team, referees and crew. What speaks against the choice is told at once,
// and again before it is recorded.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property EventDesk desk
    readonly property DutyPage page: desk.duties
    // Offers are asked again when a choice or the record has changed.
    property int asked: 0

    function ask(match: string) {
        if (!sheet.page.look(match))
            return;
        for (const one of [workers, crew, first, second])
            one.typed = "";
        sheet.open();
        workers.input.forceActiveFocus();
    }

    // Enter that chooses another one does not go on.
    function take(value: string, before: string) {
        if (value !== before)
            sheet.spend();
    }

    title: page.title
    note: page.about
    widthMm: 180
    onward: give

    Connections {
        target: sheet.page
        function onChanged() {
            ++sheet.asked;
        }
    }
    OwnAct {
        owner: sheet
        preview: sheet.desk.preview
    }

    Column {
        id: now
        spacing: Theme.mm(0.6)
        Layout.fillWidth: true
        Repeater {
            // Counted: news changes what the lines say and makes none anew that stays.
            model: sheet.page.now.length
            Label {
                required property int index
                objectName: "dutyNow" + index
                text: sheet.page.now[index] ?? ""
                wrapMode: Text.WordWrap
                width: now.width
            }
        }
    }
    Hairline {
        Layout.fillWidth: true
    }
    Pick {
        id: workers
        name: "workers"
        label: qsTr("Work team, or a match: A1")
        options: sheet.asked >= 0 ? sheet.page.workersLike(typed) : []
        chosen: sheet.page.workers
        onPicked: value => {
            sheet.take(value, chosen);
            sheet.page.chooseWorkers(value);
        }
    }
    Pick {
        id: first
        name: "first"
        label: qsTr("First referee")
        options: sheet.asked >= 0 ? sheet.page.refereesLike(typed, false) : []
        chosen: sheet.page.firstReferee
        onPicked: value => {
            sheet.take(value, chosen);
            sheet.page.chooseReferee(value, false);
        }
    }
    Pick {
        id: second
        name: "second"
        label: qsTr("Second referee")
        options: sheet.asked >= 0 ? sheet.page.refereesLike(typed, true) : []
        chosen: sheet.page.secondReferee
        onPicked: value => {
            sheet.take(value, chosen);
            sheet.page.chooseReferee(value, true);
        }
    }
    Pick {
        id: crew
        name: "crew"
        label: qsTr("Crew")
        options: sheet.asked >= 0 ? sheet.page.crewsLike(typed) : []
        chosen: sheet.page.crew
        onPicked: value => {
            sheet.take(value, chosen);
            sheet.page.chooseCrew(value);
        }
    }
    // Beside the button, below what is scrolled: in sight whatever is chosen.
    actions: [
        Column {
            id: clashes
            spacing: Theme.mm(1)
            Layout.fillWidth: true
            Repeater {
                model: sheet.page.clashes.length
                StateMark {
                    required property int index
                    objectName: "clash" + index
                    kind: StateMark.Caution
                    word: sheet.page.clashes[index] ?? ""
                    lines: 3
                    width: clashes.width
                }
            }
        },
        Button {
            id: give
            objectName: "giveDuty"
            kind: Button.Primary
            text: qsTr("See what it changes")
            keyHint: qsTr("Enter")
            enabled: sheet.page.differs
            Layout.alignment: Qt.AlignBottom
            onClicked: sheet.page.give()
        }
    ]
}
