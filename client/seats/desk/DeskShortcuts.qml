// The keys that do the same on every page of the desk; DeskKeys lists them.
pragma ComponentBehavior: Bound
import QtQuick

Item {
    id: keys

    signal keysWanted()
    signal begun()
    signal pageChosen(int page)
    signal importWanted()
    signal exportWanted()
    signal publishWanted()

    Shortcut {
        sequence: "?"
        onActivated: keys.keysWanted()
    }
    Shortcut {
        sequence: "Ctrl+N"
        onActivated: keys.begun()
    }
    Shortcut {
        sequence: "Ctrl+O"
        onActivated: keys.importWanted()
    }
    Shortcut {
        sequence: "Ctrl+E"
        onActivated: keys.exportWanted()
    }
    Shortcut {
        sequence: "Ctrl+P"
        onActivated: keys.publishWanted()
    }
    Instantiator {
        model: 11
        Shortcut {
            id: pageKey
            required property int index
            sequence: "F" + (pageKey.index + 1)
            onActivated: keys.pageChosen(pageKey.index)
        }
    }
}
