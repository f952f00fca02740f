// What every draft of the table has in common: a number may be typed instead of touched.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>

#include "typed_number.h"

namespace courthand::client {

/// Derived classes name it with its namespaces: Qt 6.4 writes the name of a base for QML as it
/// stands there, and looks for the whole one.
class NumberDraft : public QObject {
    Q_OBJECT
    QML_ANONYMOUS
    /// The figures typed so far.
    Q_PROPERTY(QString typed READ typed NOTIFY changed)

  public:
    explicit NumberDraft(QObject* parent = nullptr) : QObject{parent} {}

    QString typed() const { return typed_.text(); }

    Q_INVOKABLE void typeDigit(int digit);
    /// The typed number is used as if it had been touched, and forgotten.
    Q_INVOKABLE virtual void acceptTyped() = 0;
    /// Takes back the last figure.
    Q_INVOKABLE virtual void eraseTyped();

  Q_SIGNALS:
    void changed();

  protected:
    TypedNumber typed_;
};

}  // namespace courthand::client
