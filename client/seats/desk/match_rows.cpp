#include "match_rows.h"

#include <QCoreApplication>
#include <QDateTime>
#include <string_view>
#include <unordered_map>
#include <utility>

#include "desk_words.h"

namespace courthand::seats {

namespace {

struct Desk {
    Q_DECLARE_TR_FUNCTIONS(Desk)
};

/// Results, or cards of courts, by the id of their match; they outlive it.
template <class Each>
class ByMatch {
  public:
    explicit ByMatch(const std::vector<Each>& all) {
        for (const Each& each : all)
            if (!each.match_id.empty()) by_match_.emplace(each.match_id, &each);
    }
    /// Null when there is none.
    [[nodiscard]] const Each* of(const venue::Id& match) const {
        const auto found = by_match_.find(match);
        return found == by_match_.end() ? nullptr : found->second;
    }

  private:
    std::unordered_map<std::string_view, const Each*> by_match_;
};

QString clock_words(const std::optional<venue::Moment>& moment) {
    if (!moment) return Desk::tr("next");
    return QDateTime::fromMSecsSinceEpoch(moment->count()).toString(QStringLiteral("HH:mm"));
}

QVariantMap row_of(const venue::MatchPlanned& match,
                   const std::optional<venue::ResultListed>& result, const QString& line_ups,
                   const venue::MatchNames& names) {
    const auto name = names.of(match.id);
    const auto status = status_words(match.status);
    return {{QStringLiteral("matchId"), text(match.id)},
            {QStringLiteral("number"), name               ? text(*name)
                                       : match.number > 0 ? QString::number(match.number)
                                                          : QString()},
            {QStringLiteral("time"), clock_words(match.planned)},
            {QStringLiteral("first"), text(match.first)},
            {QStringLiteral("second"), text(match.second)},
            {QStringLiteral("firstColour"), colour_of(match.first_colour)},
            {QStringLiteral("secondColour"), colour_of(match.second_colour)},
            {QStringLiteral("court"), match.court > 0 ? QString::number(match.court) : QString()},
            {QStringLiteral("mark"), static_cast<int>(status.mark)},
            {QStringLiteral("state"), status.word},
            {QStringLiteral("lineUps"), line_ups},
            {QStringLiteral("sets"),
             result ? QStringLiteral("%1 : %2").arg(int{result->sets.a}).arg(int{result->sets.b})
                    : QString()},
            {QStringLiteral("scores"), result ? sets_words(*result) : QString()},
            {QStringLiteral("movable"), match.status == venue::MatchStatus::scheduled ||
                                            match.status == venue::MatchStatus::called},
            {QStringLiteral("spoken"), Desk::tr("%1, %2, %3")
                                           .arg(match_called(names, match.id, match.number),
                                                match_words(match), status.word)}};
}

/// The same value; both may be missing.
bool same(const std::optional<venue::ResultListed>& a, const venue::ResultListed* b) {
    return b == nullptr ? !a : a && *a == *b;
}

}  // namespace

std::vector<QVariantMap> MatchRows::of(const venue::DeskBook& book, const venue::Board& board,
                                       const venue::MatchNames& names) {
    const ByMatch results{book.results};
    const ByMatch cards{board.courts};
    made_.resize(book.matches.size());
    std::vector<QVariantMap> rows;
    rows.reserve(made_.size());
    for (std::size_t i = 0; i < made_.size(); ++i) {
        const venue::MatchPlanned& match = book.matches[i];
        const auto* const result = results.of(match.id);
        QString line_ups = line_up_words(cards.of(match.id));
        auto name = names.of(match.id);
        Made& made = made_[i];
        if (made.row.isEmpty() || made.match != match || !same(made.result, result) ||
            made.line_ups != line_ups || made.name != name) {
            made.match = match;
            made.result = result != nullptr ? std::optional{*result} : std::nullopt;
            made.line_ups = std::move(line_ups);
            made.name = std::move(name);
            made.row = row_of(made.match, made.result, made.line_ups, names);
        }
        rows.push_back(made.row);
    }
    return rows;
}

}  // namespace courthand::seats
