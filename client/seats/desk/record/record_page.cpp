#include "record_page.h"

#include <algorithm>
#include <variant>
#include <vector>

#include "event_words.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

/// What became of a fact, and why.
struct Standing {
    MarkedWord word;
    QString why;
};

Standing standing(const event::TournamentState& state, event::FactNumber number) {
    if (!state.counts[number - 1]) return {{Mark::quiet, RecordPage::tr("taken back")}, {}};
    const auto found =
        std::lower_bound(state.findings.begin(), state.findings.end(), number,
                         [](const event::Finding& finding, event::FactNumber wanted) {
                             return finding.fact < wanted;
                         });
    if (found == state.findings.end() || found->fact != number) return {};
    return {{Mark::caution, RecordPage::tr("no effect")}, client::finding_words(*found)};
}

QVariantMap row_of(const venue::EventBook& book, event::FactNumber number) {
    const Standing how = standing(*book.state, number);
    const auto beside = book.words->find(number);
    QString about = how.why;
    if (about.isEmpty() && beside != book.words->end()) about = text(beside->second);
    return {{QStringLiteral("key"), QString::number(number)},
            {QStringLiteral("number"), static_cast<int>(number)},
            {QStringLiteral("says"), client::event_words(book.state->facts[number - 1])},
            {QStringLiteral("about"), about},
            {QStringLiteral("mark"), static_cast<int>(how.word.mark)},
            {QStringLiteral("state"), how.word.word},
            {QStringLiteral("counts"), static_cast<bool>(book.state->counts[number - 1])}};
}

}  // namespace

RecordPage::RecordPage(const venue::EventBook& book, ActPreview& preview, QObject* parent)
    : QObject(parent),
      book_(book),
      preview_(preview),
      rows_({QStringLiteral("key"), QStringLiteral("number"), QStringLiteral("says"),
             QStringLiteral("about"), QStringLiteral("mark"), QStringLiteral("state"),
             QStringLiteral("counts")}) {}

void RecordPage::show() {
    std::vector<QVariantMap> rows;
    const event::FactNumber last = book_.state->last();
    const auto count = static_cast<event::FactNumber>(std::min<std::size_t>(last, most_));
    rows.reserve(count);
    for (event::FactNumber i = 0; i < count; ++i) rows.push_back(row_of(book_, last - i));
    rows_.show(std::move(rows));
    Q_EMIT shown();
}

void RecordPage::showOlder() {
    most_ += rows_at_once;
    show();
}

void RecordPage::takeBack(int number) {
    const auto fact = static_cast<event::FactNumber>(number);
    if (number < 1 || fact > book_.state->last() || !book_.state->counts[fact - 1]) return;
    const event::Fact& said = book_.state->facts[fact - 1];
    const bool restores = std::holds_alternative<event::TakenBack>(said);
    preview_.ask({restores ? tr("Let it count again") : tr("Take back"),
                  restores ? tr("It counts again.") : tr("It is taken back."),
                  [note = tr("%1: %2").arg(number).arg(client::event_words(said))](const auto&) {
                      return QStringList{note};
                  },
                  {event::TakenBack{fact}}});
}

}  // namespace courthand::seats
