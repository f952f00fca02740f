// The room of the signatures: of the team lists before the match, of the result after it.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QVariantList>

#include "acting.h"
#include "courthand/match/signatures.h"
#include "display.h"

namespace courthand::client {

class Signing : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    /// There is something to sign now.
    Q_PROPERTY(bool offered READ offered NOTIFY changed)
    /// It is the result, no team list.
    Q_PROPERTY(bool ofResult READ ofResult NOTIFY changed)
    /// Who signs, as `SignLine`.
    Q_PROPERTY(QVariantList lines READ lines NOTIFY changed)
    /// Nobody who must sign is missing.
    Q_PROPERTY(bool closed READ closed NOTIFY changed)
    /// "Not signed: captain of Mill Lane, first referee", or that nobody is missing.
    Q_PROPERTY(QString words READ words NOTIFY changed)

  public:
    explicit Signing(Acting& table, const MatchLook& look) : table_{table}, look_{look} {}

    bool offered() const;
    bool ofResult() const;
    QVariantList lines() const;
    bool closed() const;
    QString words() const;
    void show() { Q_EMIT changed(); }

    /// By the word of a signer; nothing when that one has signed.
    Q_INVOKABLE void sign(const QString& by);

  Q_SIGNALS:
    void changed();

  private:
    /// As the record is now: who signs, who must, and who has.
    struct Sheet {
        std::vector<Signer> signers;
        std::vector<Signer> missing;
        SignerSet given;
    };
    [[nodiscard]] Sheet sheet() const;

    Acting& table_;
    const MatchLook& look_;
};

}  // namespace courthand::client
