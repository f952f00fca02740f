// What is offered to somebody who types part of a name, and which of it Enter
// takes.
#pragma once

#include <QString>
#include <QVariantList>
#include <vector>

namespace courthand::seats {

/// Values of one choice with their words. Offered are the one that is chosen,
/// then what is offered always ("nobody"), then what has the typed text in it,
/// the best fit first: where a name begins so, then where another word of it
/// does, then where it stands within a word.
class Offers {
  public:
    Offers(const QString& typed, QString chosen);

    void offer(const QString& value, const QString& word);
    /// Whatever is typed. Enter takes it only when its word is typed wholly.
    void offer_always(const QString& value, const QString& word);
    /// Triples of a value, its word and whether Enter takes it. Eight at most.
    [[nodiscard]] QVariantList all() const;

  private:
    struct Offer {
        QString value;
        QString word;
        int fit;  ///< the smaller the better
        bool always;
    };

    QString typed_;
    QString chosen_;
    std::vector<Offer> offers_;
};

}  // namespace courthand::seats
