// Buttons to choose by, in as many lines as they need. Keys stay with what they were on when the
// buttons come to stand in another order.
pragma ComponentBehavior: Bound
import QtQuick
import Courthand.Design

Flow {
    id: flow

    // Before the values in the names of the buttons.
    property string name: ""
    property string label: ""
    // Each begins with a value and its word.
    property var options: []
    // The values that are chosen.
    property var chosen: []
    property bool several: false
    // The value on whose button the keys are, and whether it was just pressed by them.
    property var at: undefined
    property bool pressed: false

    signal picked(var value)

    function follow() {
        let here = -1;
        let there = -1;
        for (let i = 0; i < buttons.count; ++i) {
            if (buttons.itemAt(i)?.activeFocus)
                here = i;
            if (flow.options[i]?.[0] === flow.at)
                there = i;
        }
        if (there >= 0 && there !== here && (here >= 0 || flow.pressed))
            buttons.itemAt(there).forceActiveFocus(Qt.TabFocusReason);
        else if (here >= 0)
            flow.at = flow.options[here][0];
        flow.pressed = false;
    }

    spacing: Theme.mm(1)
    onOptionsChanged: turn.restart()

    Timer {
        id: turn
        // When all buttons have their new values.
        interval: 0
        onTriggered: flow.follow()
    }
    Repeater {
        id: buttons
        // Counted: whoever is chosen may change what else can be, while its button handles the touch.
        model: flow.options.length
        Button {
            id: button
            required property int index
            readonly property var option: flow.options[index] ?? ["", ""]
            readonly property bool among: flow.chosen.includes(option[0])
            objectName: flow.name + option[0]
            text: option[1]
            capMm: 2.5
            checkable: true
            checked: among
            Accessible.role: flow.several ? Accessible.CheckBox : Accessible.RadioButton
            Accessible.name: flow.label === "" ? text : qsTr("%1: %2").arg(flow.label).arg(text)
            onActiveFocusChanged: if (activeFocus)
                                      flow.at = option[0]
            onClicked: {
                // A button that can be checked turns by itself: it is to show what is chosen.
                checked = Qt.binding(() => button.among);
                flow.pressed = activeFocus;
                flow.picked(option[0]);
                turn.restart();
            }
        }
    }
}
