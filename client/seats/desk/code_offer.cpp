#include "code_offer.h"

#include <qrencode.h>

#include <QDateTime>
#include <QPointer>
#include <memory>

#include "desk_words.h"

namespace courthand::seats {

QString grouped_symbols(const QString& code) {
    constexpr int group = 4;
    QString symbols;
    int count = 0;
    for (const QChar c : code) {
        if (!c.isLetterOrNumber()) continue;
        if (count > 0 && count % group == 0) symbols += QLatin1Char(' ');
        symbols += c.toUpper();
        ++count;
    }
    return symbols;
}

CodeOffer::CodeOffer(venue::DeskSource& source, QObject* parent)
    : QObject(parent), source_(source) {}

void CodeOffer::issue(int seat, int court) {
    if (busy_ || seat < Table || seat > Head) return;
    clear();
    if (seat == Table && court <= 0) {
        problem_ = tr("Choose the court of the table first.");
        Q_EMIT changed();
        return;
    }
    busy_ = true;
    const auto wanted = static_cast<venue::Seat>(seat);
    const auto number = static_cast<venue::CourtNumber>(seat == Table ? court : 0);
    place_ = seat == Table ? tr("Table of %1").arg(court_words(number)) : seat_words(wanted);
    Q_EMIT changed();
    source_.issue_code(wanted, number,
                       [self = QPointer<CodeOffer>(this)](const venue::CodeIssued& code) {
                           if (!self) return;
                           QMetaObject::invokeMethod(
                               self.data(),
                               [self, code] {
                                   if (self) self->take(code);
                               },
                               Qt::QueuedConnection);
                       });
}

void CodeOffer::clear() {
    symbols_.clear();
    expires_.clear();
    problem_.clear();
    qr_cells_.clear();
    qr_size_ = 0;
    Q_EMIT changed();
}

void CodeOffer::take(const venue::CodeIssued& code) {
    busy_ = false;
    problem_ = text(code.failed);
    if (code.failed.empty()) {
        symbols_ = grouped_symbols(text(code.text));
        if (code.expires) {
            expires_ = tr("good once, until %1")
                           .arg(QDateTime::fromMSecsSinceEpoch(code.expires->count())
                                    .toString(QStringLiteral("HH:mm")));
        }
        const QByteArray content = symbols_.toLatin1();
        // Capital letters, digits and blanks: two fit into eleven bits, so the patch stays coarse.
        const std::unique_ptr<QRcode, decltype(&QRcode_free)> qr(
            QRcode_encodeString(content.constData(), 0, QR_ECLEVEL_M, QR_MODE_8, 1), &QRcode_free);
        if (qr) {
            qr_size_ = qr->width;
            for (int i = 0; i < qr->width * qr->width; ++i) {
                qr_cells_ += QLatin1Char((qr->data[i] & 1) != 0 ? '1' : '0');
            }
        }
    }
    Q_EMIT changed();
}

}  // namespace courthand::seats
