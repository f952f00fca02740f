// A remark for the sheet of the match.
import QtQuick
import Courthand.Table

WordsSheet {
    name: "remark"
    key: "E"
    place: TableSheet.More
    rank: 90

    title: qsTr("Remark")
    label: qsTr("What is to be written")
    recordWord: qsTr("Record the remark")
    onWritten: (onLeft, words) => seat.acts.remark(words)
}
