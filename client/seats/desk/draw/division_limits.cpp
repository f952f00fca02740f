#include "division_limits.h"

#include <QCoreApplication>
#include <QStringList>
#include <limits>
#include <variant>
#include <vector>

#include "courthand/event/limits.h"

namespace courthand::seats {

namespace {

struct Limits {
    Q_DECLARE_TR_FUNCTIONS(Limits)
};

using event::DivisionOpened;

struct Limit {
    const char* name;  ///< on the sheet
    QString words;
    uint most;
    std::variant<std::uint16_t DivisionOpened::*, std::uint8_t DivisionOpened::*> field;
};

std::vector<Limit> limits() {
    using Rules = DivisionOpened;
    constexpr uint minutes = event::most_minutes;
    constexpr uint matches = std::numeric_limits<std::uint8_t>::max();
    constexpr uint points = event::most_carried;
    return {
        {"lasts", Limits::tr("minutes of a match"), minutes, &Rules::match_minutes},
        {"rest", Limits::tr("minutes of rest"), minutes, &Rules::rest_minutes},
        {"inRow", Limits::tr("matches in a row"), matches, &Rules::most_in_a_row},
        {"aDay", Limits::tr("matches a day"), matches, &Rules::most_a_day},
        {"latePoints", Limits::tr("points a minute late"), points, &Rules::late_points},
        {"lateSet", Limits::tr("minutes late that lose the first set"), minutes,
         &Rules::late_set_minutes},
        {"lateMatch", Limits::tr("minutes late that lose the match"), minutes,
         &Rules::late_match_minutes},
        {"crewLate", Limits::tr("points a minute of a late crew"), points,
         &Rules::crew_late_points},
    };
}

}  // namespace

QString take_limits(const QVariantMap& said, DivisionOpened& rules) {
    for (const Limit& limit : limits()) {
        const QString typed = said.value(QString::fromLatin1(limit.name)).toString().trimmed();
        if (typed.isEmpty()) continue;
        bool good = false;
        const uint number = typed.toUInt(&good);
        if (!good || number > limit.most)
            return Limits::tr(
                       "“%1” cannot be the %2. Write a number, 0 to %3; 0: no limit; empty: "
                       "as it is.")
                .arg(typed, limit.words)
                .arg(limit.most);
        std::visit(
            [&](auto field) {
                using Number = std::remove_reference_t<decltype(rules.*field)>;
                rules.*field = static_cast<Number>(number);
            },
            limit.field);
    }
    return {};
}

QString limit_words(const DivisionOpened& rules) {
    QStringList words;
    for (const Limit& limit : limits()) {
        const uint number =
            std::visit([&](auto field) { return static_cast<uint>(rules.*field); }, limit.field);
        if (number != 0)
            words << Limits::tr("%1 %2", "which limit, its number").arg(limit.words).arg(number);
    }
    return words.join(QStringLiteral(", "));
}

}  // namespace courthand::seats
