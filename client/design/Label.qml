// Running text.
import QtQuick

Text {
    property bool soft: false
    property bool strong: false
    // Height of a capital in millimetres.
    property real capMm: 2.9

    color: soft ? Theme.inkSoft : Theme.ink
    font.family: Theme.family
    font.pixelSize: Theme.cap(capMm)
    font.weight: strong ? Font.DemiBold : Font.Normal
    textFormat: Text.PlainText
    verticalAlignment: Text.AlignVCenter
    Accessible.role: Accessible.StaticText
    Accessible.name: text
}
