// A printed rule between things that belong apart.
import QtQuick

Rectangle {
    property bool upright: false
    property bool heavy: false

    implicitWidth: heavy ? Theme.rule : Theme.hair
    implicitHeight: heavy ? Theme.rule : Theme.hair
    color: heavy ? Theme.ink : Theme.hairline
}
