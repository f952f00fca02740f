// A protest of a team, in its words.
import QtQuick
import Courthand.Table

WordsSheet {
    name: "protest"
    key: "O"
    place: TableSheet.More
    rank: 100

    title: qsTr("Protest")
    ofTeam: true
    label: qsTr("What the team protests")
    recordWord: qsTr("Record the protest")
    onWritten: (onLeft, words) => seat.acts.protest(onLeft, words)
}
