// One alert, opened: what is known about it, and at the foot what can be done.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Head

ColumnLayout {
    id: view

    required property AlertPage page
    property bool narrow: false

    signal back()

    spacing: Theme.gap
    Accessible.role: Accessible.Pane
    Accessible.name: page.title

    function enter() {
        actions.focusFirst();
    }
    onVisibleChanged: if (visible)
                          view.enter()

    RowLayout {
        spacing: Theme.gapWide
        Layout.fillWidth: true
        StateMark {
            kind: view.page.mark
            word: view.page.severityWord
            capMm: 4.2
        }
        Label {
            text: view.page.age
            capMm: 4.2
            strong: true
            Accessible.name: qsTr("open for %1").arg(text)
        }
        Label {
            objectName: view.narrow ? "" : "owner"
            text: view.narrow ? "" : view.page.owner
            color: Theme.accent
            strong: true
            elide: Text.ElideRight
            Layout.fillWidth: true
        }
        Button {
            objectName: "back"
            kind: Button.Quiet
            text: qsTr("Back")
            keyHint: view.narrow ? "" : qsTr("Esc")
            onClicked: view.back()
        }
    }
    Label {
        objectName: view.narrow ? "owner" : ""
        visible: view.narrow && text !== ""
        text: view.page.owner
        color: Theme.accent
        strong: true
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    Flickable {
        id: scroll
        contentHeight: sheet.implicitHeight
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        Layout.fillWidth: true
        Layout.fillHeight: true

        ColumnLayout {
            id: sheet
            width: scroll.width
            spacing: Theme.gap

            Heading {
                text: view.page.title
                wrapMode: Text.WordWrap
                Layout.fillWidth: true
            }
            Label {
                text: view.page.where
                soft: true
                wrapMode: Text.WordWrap
                Layout.fillWidth: true
            }
            Label {
                text: view.page.detail
                wrapMode: Text.WordWrap
                Layout.fillWidth: true
            }
            StateMark {
                visible: view.page.ended !== ""
                kind: StateMark.Quiet
                word: view.page.ended
                lines: 3
                Layout.fillWidth: true
            }
            GridLayout {
                columns: view.narrow ? 1 : 2
                columnSpacing: Theme.gapWide * 2
                rowSpacing: Theme.gapWide
                Layout.fillWidth: true
                Layout.topMargin: Theme.gap

                RowLayout {
                    visible: view.page.hasSix
                    spacing: Theme.gapWide
                    Layout.alignment: Qt.AlignTop
                    SixDiagram {
                        objectName: "before"
                        title: qsTr("Before")
                        places: view.page.before
                        teamName: view.page.teamName
                        team: view.page.teamColour
                        Layout.fillWidth: view.narrow
                    }
                    SixDiagram {
                        objectName: "after"
                        title: qsTr("After")
                        places: view.page.after
                        teamName: view.page.teamName
                        team: view.page.teamColour
                        Layout.fillWidth: view.narrow
                    }
                }
                AlertFacts {
                    page: view.page
                    Layout.fillWidth: true
                    Layout.alignment: Qt.AlignTop
                }
                EntryLines {
                    objectName: "entries"
                    visible: lines.length > 0
                    title: qsTr("Entries concerned")
                    lines: view.page.entries
                    Layout.fillWidth: true
                    Layout.alignment: Qt.AlignTop
                }
                EntryLines {
                    objectName: "replacements"
                    visible: lines.length > 0
                    title: qsTr("Last libero replacements of %1").arg(view.page.teamName)
                    lines: view.page.replacements
                    Layout.fillWidth: true
                    Layout.alignment: Qt.AlignTop
                }
            }
        }
    }
    AlertActions {
        id: actions
        page: view.page
        narrow: view.narrow
        Layout.fillWidth: true
    }
}
