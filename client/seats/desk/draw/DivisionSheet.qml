// Opens a division; before the first one, the tournament itself.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property EventDesk desk
    required property string usualProfile
    required property string venueName
    readonly property DivisionPage page: desk.divisionPage
    readonly property bool first: !page.tournamentOpened
    property string profile: ""
    property string chain: ""
    property int sets: 3
    property bool struck: true
    property string confirms: "desk"

    title: first ? qsTr("Open the tournament") : qsTr("Open a division")
    widthMm: 280
    onward: openIt
    onAboutToShow: {
        page.forgetProblem();
        profile = usualProfile;
        chain = page.chains[0][0];
        eventName.text = venueName;
        for (const field of [firstDay, lastDay, zone, code, name, lasts, rest, inRow, aDay, latePoints, lateSet,
                             lateMatch, crewLate])
            field.text = "";
        sets = 3;
        struck = true;
        confirms = "desk";
        // What is left to be written comes first.
        (first ? firstDay : code).input.forceActiveFocus();
    }

    OwnAct {
        owner: sheet
        preview: sheet.desk.preview
    }

    RowLayout {
        visible: sheet.first
        spacing: Theme.gap
        Layout.fillWidth: true
        Field {
            id: eventName
            objectName: "eventName"
            label: qsTr("Name of the tournament")
            maximumLength: 60
            Layout.fillWidth: true
        }
        Field {
            id: firstDay
            objectName: "firstDay"
            label: qsTr("First day")
            example: qsTr("2026-11-28")
            maximumLength: 10
            Layout.preferredWidth: Theme.mm(42)
        }
        Field {
            id: lastDay
            objectName: "lastDay"
            label: qsTr("Last day")
            example: qsTr("2026-11-29")
            maximumLength: 10
            Layout.preferredWidth: Theme.mm(42)
        }
        Field {
            id: zone
            objectName: "timeZone"
            label: qsTr("Time zone")
            example: qsTr("Europe/London")
            maximumLength: 48
            Layout.preferredWidth: Theme.mm(54)
        }
    }
    Choice {
        visible: sheet.first
        name: "confirms-"
        label: qsTr("Results are confirmed by")
        options: [["desk", qsTr("the desk")], ["signatures", qsTr("signatures at the table, or the desk")]]
        chosen: sheet.confirms
        onPicked: value => sheet.confirms = value
    }
    RowLayout {
        visible: !sheet.first
        spacing: Theme.gap
        Layout.fillWidth: true
        Field {
            id: code
            objectName: "divisionCode"
            label: qsTr("Code")
            example: qsTr("U16")
            maximumLength: 48
            Layout.preferredWidth: Theme.mm(30)
        }
        Field {
            id: name
            objectName: "divisionName"
            label: qsTr("Name")
            maximumLength: 60
            Layout.fillWidth: true
        }
        Field {
            id: lasts
            objectName: "divisionLasts"
            label: qsTr("Minutes of a match")
            inputMethodHints: Qt.ImhDigitsOnly
            maximumLength: 3
            Layout.preferredWidth: Theme.mm(34)
        }
        Field {
            id: rest
            objectName: "divisionRest"
            label: qsTr("Minutes of rest")
            inputMethodHints: Qt.ImhDigitsOnly
            maximumLength: 3
            Layout.preferredWidth: Theme.mm(30)
        }
    }
    RowLayout {
        visible: !sheet.first
        spacing: Theme.gap
        Layout.fillWidth: true
        component Limit: Field {
            inputMethodHints: Qt.ImhDigitsOnly
            maximumLength: 3
            Layout.fillWidth: true
        }
        Limit {
            id: inRow
            objectName: "divisionInRow"
            label: qsTr("Most matches in a row")
        }
        Limit {
            id: aDay
            objectName: "divisionADay"
            label: qsTr("Most matches a day")
        }
        Limit {
            id: latePoints
            objectName: "divisionLatePoints"
            label: qsTr("Late: points a minute")
        }
        Limit {
            id: lateSet
            objectName: "divisionLateSet"
            label: qsTr("Minutes late: a set lost")
        }
        Limit {
            id: lateMatch
            objectName: "divisionLateMatch"
            label: qsTr("Minutes late: all lost")
        }
        Limit {
            id: crewLate
            objectName: "divisionCrewLate"
            label: qsTr("Late crew: points a minute")
        }
    }
    Label {
        objectName: "divisionLimits"
        visible: !sheet.first && text !== ""
        text: sheet.page.limitWords(code.text)
        soft: true
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    Choice {
        visible: !sheet.first
        name: "profile-"
        label: qsTr("Rules")
        options: sheet.page.profiles
        chosen: sheet.profile
        onPicked: value => sheet.profile = value
    }
    Choice {
        visible: !sheet.first
        name: "chain-"
        label: qsTr("Pools are put in order by")
        options: sheet.page.chains
        chosen: sheet.chain
        onPicked: value => sheet.chain = value
    }
    RowLayout {
        visible: !sheet.first
        spacing: Theme.gapWide
        Layout.fillWidth: true
        Choice {
            name: "bestOf-"
            label: qsTr("Format")
            options: [[0, qsTr("as the rules say")], [1, qsTr("one set")], [2, qsTr("two sets, both played")],
                      [3, qsTr("best of three")], [5, qsTr("best of five")]]
            chosen: sheet.sets
            onPicked: value => sheet.sets = value
        }
        Choice {
            name: "withdrawn-"
            label: qsTr("Results of a team that leaves its pool are")
            options: [[true, qsTr("struck")], [false, qsTr("kept")]]
            chosen: sheet.struck
            onPicked: value => sheet.struck = value
        }
    }
    StateMark {
        objectName: "divisionProblem"
        visible: word !== ""
        kind: StateMark.Fault
        word: sheet.page.problem
        lines: 4
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            id: openIt
            objectName: "openNow"
            kind: Button.Primary
            text: qsTr("See what it changes")
            keyHint: qsTr("Enter")
            onClicked: sheet.first
                       ? sheet.page.openTournament(eventName.text, firstDay.text, lastDay.text, zone.text,
                                                       sheet.confirms)
                       : sheet.page.openDivision({
                             "code": code.text, "name": name.text, "profile": sheet.profile,
                             "chain": sheet.chain, "sets": sheet.sets, "lasts": lasts.text,
                             "rest": rest.text, "inRow": inRow.text, "aDay": aDay.text,
                             "latePoints": latePoints.text, "lateSet": lateSet.text,
                             "lateMatch": lateMatch.text, "crewLate": crewLate.text, "struck": sheet.struck
                         })
        }
    ]
}
