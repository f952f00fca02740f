// A one-use enrolment code on the screen: symbols to read out, and the same as a QR code.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>

#include "venue/desk_source.h"

namespace courthand::seats {

class CodeOffer : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(QString symbols READ symbols NOTIFY changed)
    Q_PROPERTY(QString place READ place NOTIFY changed)
    Q_PROPERTY(QString expires READ expires NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(bool busy READ busy NOTIFY changed)
    Q_PROPERTY(int qrSize READ qrSize NOTIFY changed)
    Q_PROPERTY(QString qrCells READ qrCells NOTIFY changed)

  public:
    /// In the order of venue::Seat.
    enum Seat { Table, Desk, Head };
    Q_ENUM(Seat)

    explicit CodeOffer(venue::DeskSource& source, QObject* parent = nullptr);

    /// In groups of four.
    [[nodiscard]] QString symbols() const { return symbols_; }
    [[nodiscard]] QString place() const { return place_; }
    [[nodiscard]] QString expires() const { return expires_; }
    [[nodiscard]] QString problem() const { return problem_; }
    [[nodiscard]] bool busy() const { return busy_; }
    /// Cells on a side of the QR code; 0: none.
    [[nodiscard]] int qrSize() const { return qr_size_; }
    /// Row by row, "1" for a dark cell.
    [[nodiscard]] QString qrCells() const { return qr_cells_; }

    Q_INVOKABLE void issue(int seat, int court);
    Q_INVOKABLE void clear();

  Q_SIGNALS:
    void changed();

  private:
    void take(const venue::CodeIssued& code);

    venue::DeskSource& source_;
    QString symbols_;
    QString place_;
    QString expires_;
    QString problem_;
    QString qr_cells_;
    int qr_size_ = 0;
    bool busy_ = false;
};

/// "7K3M 9QXA 04ZT V8WB 5C1N HRJ6" from a code with or without blanks.
[[nodiscard]] QString grouped_symbols(const QString& code);

}  // namespace courthand::seats
