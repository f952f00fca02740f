// The title of a page, a card or a sheet.
import QtQuick

Label {
    capMm: 4.2
    strong: true
    Accessible.role: Accessible.Heading
}
