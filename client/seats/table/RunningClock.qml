// A clock that informs and never blocks: time-out, interval, recovery time.
import QtQuick
import Courthand.Design

Item {
    id: clock

    property string words: ""
    property int total: 0
    property int remaining: 0
    property double endsAt: 0
    readonly property bool running: remaining > 0

    function start(seconds: int, label: string) {
        clock.total = seconds;
        clock.remaining = seconds;
        clock.words = label;
        clock.endsAt = Date.now() + seconds * 1000;
    }
    function stop() {
        clock.remaining = 0;
    }

    visible: running
    implicitWidth: mark.implicitWidth
    implicitHeight: mark.implicitHeight

    StateMark {
        id: mark
        anchors.fill: parent
        kind: StateMark.Notice
        word: qsTr("%1 %2:%3").arg(clock.words).arg(Math.floor(clock.remaining / 60))
              .arg(String(clock.remaining % 60).padStart(2, "0"))
    }
    Timer {
        interval: 250
        repeat: true
        running: clock.running
        onTriggered: clock.remaining = Math.max(0, Math.ceil((clock.endsAt - Date.now()) / 1000))
    }
}
