// Closes a sheet once the act that was asked from it is done, and for no other act: of sheets that lie
// over each other the topmost one has asked.
import QtQuick
import Courthand.Design
import Courthand.Desk

Item {
    id: own

    required property Sheet owner
    required property ActPreview preview
    readonly property bool shown: owner.visible
    // The wish that this sheet has brought to the preview; 0: none.
    property int wish: 0

    visible: false
    onShownChanged: wish = 0

    Connections {
        target: own.preview
        function onAsked(wish: int) {
            own.wish = own.shown && own.owner.onTop() ? wish : 0;
        }
        function onDone(words: string, wish: int) {
            if (wish === own.wish)
                own.owner.close();
        }
    }
}
