#include "typed_sets.h"

#include <QCoreApplication>
#include <QRegularExpression>

#include "courthand/event/limits.h"

namespace courthand::seats {

namespace {

struct TypedSets {
    Q_DECLARE_TR_FUNCTIONS(TypedSets)
};

}  // namespace

std::variant<std::vector<event::SetScore>, QString> read_sets(const QString& typed) {
    static const QRegularExpression between(QStringLiteral("[\\s,;]+"));
    static const QRegularExpression one(QStringLiteral("^(\\d{1,3})[-:](\\d{1,3})$"));
    const QStringList parts = typed.split(between, Qt::SkipEmptyParts);
    if (parts.isEmpty()) return TypedSets::tr("Write the sets in order, for example 25-20 25-22.");
    if (parts.size() > static_cast<int>(event::most_sets))
        return TypedSets::tr("These are %1 sets; a match has at most %2.")
            .arg(parts.size())
            .arg(event::most_sets);
    std::vector<event::SetScore> sets;
    for (const QString& part : parts) {
        const auto found = one.match(part);
        const int first = found.captured(1).toInt();
        const int second = found.captured(2).toInt();
        if (!found.hasMatch() || first > event::most_points || second > event::most_points)
            return TypedSets::tr("Set %1: “%2” is no score. Write two numbers, for example 25-20.")
                .arg(sets.size() + 1)
                .arg(part);
        sets.push_back({static_cast<std::uint16_t>(first), static_cast<std::uint16_t>(second)});
    }
    return sets;
}

}  // namespace courthand::seats
