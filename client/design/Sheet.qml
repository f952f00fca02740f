// A slip of paper laid over the page for one question. Escape or "Close" takes it away again.
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T

T.Popup {
    id: sheet

    default property alias content: body.data
    property alias actions: foot.data
    property string title: ""
    property string note: ""
    property string closeWord: qsTr("Close")
    property real widthMm: 150
    // False while the answer to what was sent is waited for.
    property bool mayClose: true
    // When true, figures, Enter and Backspace go to the sheet (a field that has the focus is first).
    property bool takesFigures: false
    // What Enter presses when no other button has the focus; on a choice it chooses first. One that
    // cannot be taken back is never pressed so: it wants the focus itself.
    property Button onward: null
    // For a sheet that only tells something, Enter closes it: `onward: closing`.
    readonly property alias closing: closeButton

    signal digitTyped(int digit)
    signal entered()
    signal erased()

    readonly property real most: parent ? parent.height - 2 * Theme.margin : 0

    // For a line in which Enter has just chosen something: the same press does nothing more.
    function spend() {
        spent.restart();
    }
    // No button has the focus any more.
    function rest() {
        column.focus = true;
    }
    // Whether no other sheet lies over it.
    function onTop(): bool {
        const lying = sheet.parent?.children ?? [];
        for (let i = lying.length - 1; i >= 0; --i) {
            if (lying[i].visible)
                return lying[i] === sheet.contentItem.parent;
        }
        return false;
    }
    // Presses what has the focus. A choice that is made already has nothing to be pressed for.
    function pressed(at: T.AbstractButton): bool {
        if (at === null || at.checked || (at as ListRow)?.selected)
            return false;
        if (at.checkable)
            at.toggle();
        at.clicked();
        return true;
    }
    // False when Enter means nothing here.
    function goOn(): bool {
        if (spent.running || sheet.pressed(column.Window.activeFocusItem as T.AbstractButton))
            return true;
        if (sheet.onward === null)
            return false;
        if (sheet.onward.visible && sheet.onward.enabled && sheet.onward.kind !== Button.Grave)
            sheet.onward.clicked();
        return true;
    }

    parent: T.Overlay.overlay
    x: parent ? Math.round((parent.width - width) / 2) : 0
    y: parent ? Math.round((parent.height - height) / 2) : 0
    width: parent ? Math.min(Theme.mm(widthMm), parent.width - 2 * Theme.margin) : 0
    height: Math.min(most, contentHeight + topPadding + bottomPadding)
    contentHeight: column.implicitHeight
    padding: Theme.mm(4)
    modal: true
    focus: true
    // Where the focus was when it was left says nothing about the next question.
    onAboutToShow: sheet.rest()
    closePolicy: mayClose ? T.Popup.CloseOnEscape : T.Popup.NoAutoClose

    enter: Transition {
        NumberAnimation { property: "opacity"; from: 0; to: 1; duration: Theme.movement }
    }

    ColumnLayout {
        id: column
        anchors.fill: parent
        spacing: Theme.gap
        focus: true
        Keys.onPressed: event => {
            const enter = event.key === Qt.Key_Return || event.key === Qt.Key_Enter;
            if (event.isAutoRepeat || event.modifiers & Qt.AltModifier)
                return;
            // In a field of several lines Enter begins a line, and with Ctrl goes on.
            if (enter && (sheet.onward !== null || !sheet.takesFigures)) {
                event.accepted = sheet.goOn();
                return;
            }
            if (!sheet.takesFigures || event.modifiers & Qt.ControlModifier)
                return;
            if (event.key >= Qt.Key_0 && event.key <= Qt.Key_9)
                sheet.digitTyped(event.key - Qt.Key_0);
            else if (enter)
                sheet.entered();
            else if (event.key === Qt.Key_Backspace)
                sheet.erased();
            else
                return;
            event.accepted = true;
        }
        // Until the press has been handled.
        Timer {
            id: spent
            interval: 0
        }
        Accessible.role: Accessible.Dialog
        Accessible.name: sheet.title

        RowLayout {
            spacing: Theme.gap
            Layout.fillWidth: true
            Heading {
                text: sheet.title
                wrapMode: Text.WordWrap
                Layout.fillWidth: true
            }
            Button {
                id: closeButton
                kind: Button.Quiet
                text: sheet.closeWord
                enabled: sheet.mayClose
                // However long the title is: that one wraps.
                Layout.minimumWidth: implicitWidth
                onClicked: sheet.close()
            }
        }
        Hairline {
            heavy: true
            Layout.fillWidth: true
        }
        Label {
            objectName: "sheetNote"
            visible: sheet.note !== ""
            text: sheet.note
            soft: true
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Flickable {
            id: scroll
            Layout.fillWidth: true
            Layout.fillHeight: true
            implicitHeight: body.implicitHeight
            contentHeight: body.implicitHeight
            contentWidth: width
            clip: contentHeight > height
            boundsBehavior: Flickable.StopAtBounds
            interactive: contentHeight > height
            ColumnLayout {
                id: body
                width: scroll.width
                spacing: Theme.gap
            }
        }
        RowLayout {
            id: foot
            visible: children.length > 0
            spacing: Theme.gap
            Layout.fillWidth: true
        }
    }
    background: Rectangle {
        color: Theme.raised
        border.color: Theme.ink
        border.width: Theme.hair
        radius: Theme.corner
    }
    T.Overlay.modal: Rectangle {
        color: Theme.veil
    }
}
