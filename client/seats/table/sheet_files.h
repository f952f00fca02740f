// Which sheets there are: every file in the folder `sheets` of the module is one.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QDir>
#include <QObject>
#include <QStringList>

namespace courthand::client {

class SheetFiles : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_SINGLETON
    /// The addresses of the files, by name.
    Q_PROPERTY(QStringList list READ list CONSTANT)

  public:
    [[nodiscard]] static QStringList list() {
        const QString folder = QStringLiteral("/qt/qml/Courthand/Table/sheets");
        QStringList addresses;
        for (const QString& file :
             QDir{QLatin1Char(':') + folder}.entryList({QStringLiteral("*.qml")}, QDir::Files))
            addresses << QStringLiteral("qrc:%1/%2").arg(folder, file);
        return addresses;
    }
};

}  // namespace courthand::client
