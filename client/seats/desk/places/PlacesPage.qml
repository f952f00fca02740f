// The final places of the division on the page.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: page

    // Keys go to the page that is shown.
    enabled: visible

    required property EventDesk desk

    function enter() {
        finals.enter();
    }

    spacing: Theme.gap

    PageHead {
        title: qsTr("Final places")
        Layout.fillWidth: true
        DivisionPicker {
            desk: page.desk
        }
    }
    Hairline {
        Layout.fillWidth: true
    }
    FinalPlaces {
        id: finals
        page: page.desk.places
        Layout.fillWidth: true
        Layout.fillHeight: true
    }
}
