// One jersey number to touch, at least 12 mm each way, with a short word under it.
import QtQuick
import Courthand.Design

CourtTile {
    id: tile

    property var player: ({})
    property bool showLegality: false
    property bool marked: false

    implicitWidth: Math.max(Theme.touchTile, Theme.mm(20))
    implicitHeight: Math.max(Theme.touchTile, Theme.mm(14))
    number: player.number !== undefined && player.number >= 0 ? player.number : ""
    numeral: player.numeral ?? ""
    captain: player.captain ?? false
    libero: player.libero ?? false
    offer: player.chosen || marked ? CourtTile.Chosen
         : showLegality && player.legal ? CourtTile.Legal
         : showLegality && (player.whyNot ?? "") !== "" ? CourtTile.Barred : CourtTile.Idle
    whyNot: player.whyNot ?? ""
    footnote: player.used ? qsTr("written") : player.unable ? qsTr("unable") : player.name ?? ""
    spoken: qsTr("number %1 %2").arg(number).arg(player.name ?? "")
}
