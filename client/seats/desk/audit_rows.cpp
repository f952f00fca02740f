#include "audit_rows.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QRegularExpression>
#include <QStringList>
#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <unordered_map>

#include "courthand/event/about.h"
#include "desk_words.h"
#include "event_words.h"
#include "officials/person_words.h"
#include "venue_words.h"
#include "wire/uuid.h"

namespace courthand::seats {

namespace {

struct Audit {
    Q_DECLARE_TR_FUNCTIONS(Audit)
};

/// Facts of one act that are told; the others are counted.
constexpr std::size_t most_told = 3;

/// Numbers of the facts by their ids, in the text of the audit.
using Numbers = std::unordered_map<std::string, event::FactNumber>;

Numbers numbers_of(const venue::EventBook& book) {
    Numbers numbers;
    for (std::size_t i = 0; i < book.ids->size(); ++i)
        numbers.emplace(wire::Uuid{(*book.ids)[i]}.to_text(),
                        static_cast<event::FactNumber>(i + 1));
    return numbers;
}

QString joined(QStringList parts) {
    parts.removeAll(QString());
    return parts.join(QStringLiteral(" · "));
}

/// Words of the server as people say them; one that is not known stays as it is.
QString act_words(const std::string& act) {
    static const std::map<std::string, QString> words{
        {"enrol", Audit::tr("Device enrolled")},
        {"issue-code", Audit::tr("Enrolment code issued")},
        {"revoke", Audit::tr("Device withdrawn")},
        {"grant", Audit::tr("Match given to a device")},
        {"begin-writing", Audit::tr("Match begun by a device")},
        {"ask-take-over", Audit::tr("Take-over asked for")},
        {"answer-take-over", Audit::tr("Take-over answered")},
        {"rule", Audit::tr("Fault ruled on")},
        {"settle-fork", Audit::tr("Two records settled")},
        {"claim", Audit::tr("Alert taken")},
        {"shelve", Audit::tr("Alert shelved")},
        {"acknowledge", Audit::tr("Alert acknowledged")},
        {"create-match", Audit::tr("Match planned")},
        {"assign-court", Audit::tr("Match given a court")},
        {"import-roster", Audit::tr("Team lists imported")},
        {"act", Audit::tr("Act in the record")},
        {"erase-words", Audit::tr("Words erased from the record")},
        {"export-event", Audit::tr("Event exported")},
        {"push", Audit::tr("Entries sent")},
        {"fetch", Audit::tr("Match read")},
        {"watch", Audit::tr("Match followed")},
        {"call", Audit::tr("Request to the server")}};
    const auto found = words.find(act);
    return found == words.end() ? text(act) : found->second;
}

/// "Tablet 3 · table · Court 3", or that it is not enrolled.
QString actor_words(const venue::AuditListed& line) {
    if (line.device_id.empty()) return Audit::tr("a device that is not enrolled");
    const QString name = line.device_name.empty()
                             ? Audit::tr("device %1").arg(text(line.device_id.substr(0, 8)))
                             : text(line.device_name);
    return joined(
        {name, seat_words(line.seat), line.court > 0 ? court_words(line.court) : QString()});
}

/// What a match is called here; empty: it is not known.
QString known_match(const std::string& id, const AuditWords& words) {
    for (const auto& match : words.desk.matches)
        if (match.id == id) return match_called(words.names, match.id, match.number);
    return {};
}

/// An alert by its key at the server, "MATCH/code/…", "court/3/code" or "venue/code": where it was,
/// and what it is called. Empty: it is no alert.
QString alert_words(const std::string& subject, const AuditWords& words) {
    const QStringList parts = text(subject).split(QLatin1Char('/'));
    if (parts.size() < 2) return {};
    const bool of_court = parts[0] == QLatin1String("court") && parts.size() > 2;
    venue::Alert alert;
    alert.code = parts[of_court ? 2 : 1].toStdString();
    const QString where = of_court ? court_words(static_cast<venue::CourtNumber>(parts[1].toUInt()))
                          : parts[0] == QLatin1String("venue")
                              ? QString()
                              : known_match(parts[0].toStdString(), words);
    return where.isEmpty() ? alert_title(alert)
                           : Audit::tr("%1: %2", "where, alert").arg(where, alert_title(alert));
}

bool about_an_alert(const std::string& act) {
    return act == "rule" || act == "claim" || act == "shelve" || act == "acknowledge" ||
           act == "settle-fork";
}

/// Matches, alerts and devices as the desk knows them; anything else as the server wrote it.
QString subject_words(const venue::AuditListed& line, const AuditWords& words) {
    if (const QString called = known_match(line.subject, words); !called.isEmpty()) return called;
    if (about_an_alert(line.act))
        if (const QString alert = alert_words(line.subject, words); !alert.isEmpty()) return alert;
    for (const auto& device : words.desk.devices)
        if (device.id == line.subject) return text(device.name);
    return text(line.subject);
}

/// "court 0, international-2025": where a match is planned, and under which rules.
QString planned_words(const QString& detail) {
    static const QRegularExpression planned(QStringLiteral("^court (\\d+)(?:, (.+))?$"));
    const auto found = planned.match(detail);
    if (!found.hasMatch()) return detail;
    const int court = found.captured(1).toInt();
    const QString where =
        court == 0 ? Audit::tr("no court") : court_words(static_cast<venue::CourtNumber>(court));
    if (found.captured(2).isEmpty()) return where;
    return Audit::tr("%1, rules %2").arg(where, found.captured(2));
}

/// "epoch 2, from entry 41: why": the writers of a match are counted, and so are its entries.
QString writer_words(const QString& detail) {
    static const QRegularExpression claim(
        QStringLiteral("^epoch (\\d+)(?:, from entry (\\d+))?(?:: (.+))?$"));
    const auto found = claim.match(detail);
    if (!found.hasMatch()) return detail;
    QStringList parts;
    parts << (found.captured(1) == QLatin1String("1")
                  ? Audit::tr("the first to write it")
                  : Audit::tr("number %1 of those who wrote it").arg(found.captured(1)));
    if (!found.captured(2).isEmpty())
        parts << Audit::tr("from its entry %1 on").arg(found.captured(2));
    parts << found.captured(3);
    parts.removeAll(QString());
    return parts.join(QStringLiteral(", "));
}

/// What the server wrote about an act outside the record, in words for people.
QString detail_words(const venue::AuditListed& line) {
    return planned_words(writer_words(text(line.detail)));
}

/// The three things that a line tells beside its moment.
struct Told {
    QString what;
    QString who;
    QString about;
};

/// What the server wrote of an act: "desk 1: result_reopened and 1 more: why it was refused".
struct Written {
    QString author;
    QString kind;
    std::size_t facts = 1;
    QString why;
};

Written written(const QString& detail) {
    const QString between = QStringLiteral(": ");
    Written out{detail.section(between, 0, 0), detail.section(between, 1, 1), 1,
                detail.section(between, 2)};
    const QString more = QStringLiteral(" and ");
    if (const auto at = out.kind.indexOf(more); at >= 0) {
        out.facts += out.kind.mid(at + more.size()).section(QLatin1Char(' '), 0, 0).toUInt();
        out.kind.truncate(at);
    }
    return out;
}

/// What was written beside a fact. A log forgets nothing, so of persons it has their numbers.
QString beside_fact(const venue::EventBook& book, event::FactNumber number) {
    const event::TournamentState& state = *book.state;
    QStringList persons;
    for (const std::uint16_t person : event::persons_told(state.facts, number))
        persons << numbered_words(state, person);
    if (!persons.isEmpty()) return persons.join(QStringLiteral(", "));
    const auto beside = book.words->find(number);
    return beside == book.words->end() ? QString() : text(beside->second);
}

/// The facts of the act that begins with `first`, and what was written beside them.
Told told_of_facts(const venue::EventBook& book, event::FactNumber first, std::size_t count) {
    Told told;
    QStringList said;
    QStringList reasons;
    const auto& facts = book.state->facts;
    const std::size_t end = std::min(facts.size(), first - 1 + count);
    for (std::size_t i = first - 1; i < end; ++i) {
        if (i < first - 1 + most_told) said << client::event_words(facts[i]);
        reasons << beside_fact(book, static_cast<event::FactNumber>(i + 1));
    }
    told.what = said.join(QStringLiteral("; "));
    if (count > most_told)
        told.what = Audit::tr("%1; %2 more").arg(told.what).arg(count - most_told);
    told.about = joined(reasons);
    return told;
}

/// An act in the record. One that was refused left no fact: its kind alone is known.
Told told_of_act(const venue::AuditListed& line, const AuditWords& words, const Numbers& numbers) {
    const Written how = written(text(line.detail));
    const auto found = numbers.find(line.subject);
    Told told;
    if (found != numbers.end()) {
        told = told_of_facts(words.event, found->second, how.facts);
    } else {
        told.what = client::kind_words(how.kind);
        if (how.facts > 1)
            told.what = Audit::tr("%1 and %2 more").arg(told.what).arg(how.facts - 1);
    }
    if (!how.why.isEmpty()) told.about = joined({told.about, how.why});
    told.who = joined({how.author, actor_words(line)});
    return told;
}

Told told_of(const venue::AuditListed& line, const AuditWords& words, const Numbers& numbers) {
    if (line.act == "act" && !line.detail.empty()) return told_of_act(line, words, numbers);
    return {act_words(line.act), actor_words(line),
            joined({subject_words(line, words), detail_words(line)})};
}

}  // namespace

std::vector<QVariantMap> audit_rows(const std::vector<venue::AuditListed>& lines,
                                    const AuditWords& words) {
    const Numbers numbers = numbers_of(words.event);
    std::vector<QVariantMap> rows;
    for (const auto& line : lines) {
        const QString when = QDateTime::fromMSecsSinceEpoch(line.at.count())
                                 .toString(QStringLiteral("d MMM HH:mm:ss"));
        const Told told = told_of(line, words, numbers);
        rows.push_back(
            {{QStringLiteral("number"), static_cast<int>(line.number)},
             {QStringLiteral("what"), told.what},
             {QStringLiteral("who"), told.who},
             {QStringLiteral("about"), told.about},
             {QStringLiteral("time"), when},
             {QStringLiteral("mark"), static_cast<int>(Mark::caution)},
             {QStringLiteral("state"), line.refused ? Audit::tr("Refused") : QString()}});
    }
    return rows;
}

}  // namespace courthand::seats
