#include "offers.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace courthand::seats {

namespace {

/// To choose from at once: two lines of buttons.
constexpr int most_offered = 8;

constexpr int wholly = 0;
constexpr int no_fit = std::numeric_limits<int>::max();

/// How well a text that was typed, and is not empty, fits a name. A word that
/// is typed to its end fits better than the beginning of a longer one: "1" is
/// rather 1 than 10.
int fit_of(const QString& typed, const QString& name) {
    const auto within = [&](qsizetype at) {
        return at >= 0 && at < name.size() && name[at].isLetterOrNumber();
    };
    if (name.compare(typed, Qt::CaseInsensitive) == 0) return wholly;
    int best = no_fit;
    for (qsizetype at = name.indexOf(typed, 0, Qt::CaseInsensitive); at >= 0;
         at = name.indexOf(typed, at + 1, Qt::CaseInsensitive)) {
        const int begins = at == 0 ? 1 : within(at - 1) ? 5 : 3;
        best = std::min(best, begins + (within(at + typed.size()) ? 1 : 0));
    }
    return best;
}

}  // namespace

Offers::Offers(const QString& typed, QString chosen)
    : typed_(typed.trimmed()), chosen_(std::move(chosen)) {}

void Offers::offer(const QString& value, const QString& word) {
    // While nothing is typed everything fits alike.
    const int fit =
        typed_.isEmpty() ? wholly : std::min(fit_of(typed_, word), fit_of(typed_, value));
    if (fit != no_fit || value == chosen_) offers_.push_back({value, word, fit, false});
}

void Offers::offer_always(const QString& value, const QString& word) {
    const bool meant = word.compare(typed_, Qt::CaseInsensitive) == 0;
    offers_.push_back({value, word, meant ? wholly : no_fit, true});
}

QVariantList Offers::all() const {
    std::vector<Offer> sorted = offers_;
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const Offer& one, const Offer& other) { return one.fit < other.fit; });
    const bool any = !typed_.isEmpty() && !sorted.empty() && sorted.front().fit != no_fit;
    const QString meant = any ? sorted.front().value : QString{};
    const auto rank = [&](const Offer& offer) {
        if (offer.always) return 1;
        return offer.value == chosen_ ? 0 : 2;
    };
    std::stable_sort(sorted.begin(), sorted.end(),
                     [&](const Offer& one, const Offer& other) { return rank(one) < rank(other); });
    QVariantList triples;
    // What is chosen is seen, though it may be offered no more.
    const auto is_chosen = [&](const Offer& offer) { return offer.value == chosen_; };
    if (!chosen_.isEmpty() && std::none_of(sorted.begin(), sorted.end(), is_chosen))
        triples << QVariant(QVariantList{chosen_, chosen_, false});
    for (const Offer& offer : sorted)
        if (triples.size() < most_offered)
            triples << QVariant(QVariantList{offer.value, offer.word, any && offer.value == meant});
    return triples;
}

}  // namespace courthand::seats
