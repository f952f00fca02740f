// Running text.
import QtQuick

Text {
    property bool soft: false
    property bool strong: false
    // Height of a capital in millimetres.
    property real capMm: 2.9
    // How small it may become where the room is small; as large as `capMm`: it never does.
    property real leastCapMm: capMm

    color: soft ? Theme.inkSoft : Theme.ink
    font.family: Theme.family
    font.pixelSize: Theme.cap(capMm)
    font.weight: strong ? Font.DemiBold : Font.Normal
    minimumPixelSize: Theme.cap(leastCapMm)
    fontSizeMode: leastCapMm >= capMm ? Text.FixedSize
                : wrapMode === Text.NoWrap ? Text.HorizontalFit : Text.Fit
    textFormat: Text.PlainText
    verticalAlignment: Text.AlignVCenter
    Accessible.role: Accessible.StaticText
    Accessible.name: text
}
