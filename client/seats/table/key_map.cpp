#include "key_map.h"

#include <QKeySequence>
#include <QMetaEnum>
#include <QStringList>
#include <algorithm>

namespace courthand::client {

std::vector<KeyMap::Row> KeyMap::usual() {
    return {
        {RallyLeft, tr("The left team won the rally"), QStringLiteral("Left"), {}},
        {RallyRight, tr("The right team won the rally"), QStringLiteral("Right"), {}},
        {ServeHit, tr("The serve is hit"), QStringLiteral("Up"), {}},
        {Expected, tr("What is expected now"), QStringLiteral("Return"), {}},
        {Libero, tr("Libero: left team, again for the right"), QStringLiteral("L"), {}},
        {ItHappened, tr("It happened: record it anyway"), QStringLiteral("H"), {}},
        {Undo, tr("Undo"), QStringLiteral("Ctrl+Z"), {}},
        {GoOnHere, tr("Ask to go on here, when another device writes"), QStringLiteral("G"), {}},
        {Figures, tr("Figures pick a jersey number"), QStringLiteral("0-9"), {}},
    };
}

int KeyMap::know(const QString& sheet, const QString& words, const QString& keys) {
    const auto known = std::find_if(rows_.begin(), rows_.end(),
                                    [&](const Row& row) { return row.sheet == sheet; });
    if (known != rows_.end()) return known->act;
    int act = FirstSheet;
    for (const Row& row : rows_) act = std::max(act, row.act + 1);
    rows_.push_back({act, words, keys, sheet});
    usual_of_sheets_.push_back(rows_.back());
    apply_choice(rows_.back());
    Q_EMIT changed();
    return act;
}

QVariantList KeyMap::list() const {
    std::vector<KeyRow> list;
    for (const Row& row : rows_) {
        KeyRow entry;
        entry.act = row.act;
        entry.words = row.words;
        entry.keys = row.keys;
        entry.on = row.on;
        list.push_back(entry);
    }
    return as_list(list);
}

QString KeyMap::keys(int act) const {
    for (const Row& row : rows_)
        if (row.act == act) return row.on ? row.keys : QString();
    return {};
}

bool KeyMap::on(int act) const {
    return std::any_of(rows_.begin(), rows_.end(),
                       [act](const Row& row) { return row.act == act && row.on; });
}

void KeyMap::turn(int act, bool on) {
    for (Row& row : rows_)
        if (row.act == act) row.on = on;
    note_choice(act);
}

bool KeyMap::remap(int act, const QString& keys) {
    const QKeySequence wanted{keys, QKeySequence::PortableText};
    if (act == Figures || wanted.isEmpty() || wanted[0].key() == Qt::Key_unknown) return false;
    const bool taken = std::any_of(rows_.begin(), rows_.end(), [&](const Row& row) {
        return row.act != act && row.act != Figures && QKeySequence{row.keys} == wanted;
    });
    if (taken) return false;
    for (Row& row : rows_)
        if (row.act == act) row.keys = wanted.toString(QKeySequence::PortableText);
    note_choice(act);
    return true;
}

void KeyMap::restore() {
    rows_ = usual();
    rows_.insert(rows_.end(), usual_of_sheets_.begin(), usual_of_sheets_.end());
    choices_.clear();
    Q_EMIT changed();
    Q_EMIT chosen();
}

/// Sheets have names in small letters, so that the two kinds of names keep apart.
QString KeyMap::name_of(const Row& row) {
    if (!row.sheet.isEmpty()) return row.sheet;
    return QString::fromLatin1(QMetaEnum::fromType<Act>().valueToKey(row.act));
}

void KeyMap::apply_choice(Row& row) const {
    const auto choice = choices_.find(name_of(row));
    if (choice == choices_.end()) return;
    row.on = choice->second.on;
    row.keys = choice->second.keys;
}

void KeyMap::note_choice(int act) {
    for (const Row& row : rows_)
        if (row.act == act) choices_[name_of(row)] = {row.keys, row.on};
    Q_EMIT changed();
    Q_EMIT chosen();
}

QString KeyMap::choices() const {
    QStringList lines;
    for (const auto& [name, choice] : choices_)
        lines << QStringLiteral("%1 %2 %3").arg(name, choice.on ? u"1" : u"0", choice.keys);
    return lines.join(QLatin1Char('\n'));
}

void KeyMap::choose(const QString& choices) {
    for (const QString& line : choices.split(QLatin1Char('\n'), Qt::SkipEmptyParts)) {
        const QString name = line.section(QLatin1Char(' '), 0, 0);
        const QString on = line.section(QLatin1Char(' '), 1, 1);
        const QString keys = line.section(QLatin1Char(' '), 2);
        if (!name.isEmpty() && !keys.isEmpty() && (on == u"1" || on == u"0"))
            choices_[name] = {keys, on == u"1"};
    }
    for (Row& row : rows_) apply_choice(row);
    Q_EMIT changed();
}

}  // namespace courthand::client
