#include "roster_import.h"

#include <QFile>
#include <QFileInfo>
#include <QPointer>
#include <QUrl>
#include <QVariantList>
#include <string_view>

#include "venue/csv_lines.h"
#include "venue/roster_example.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

bool same_column(const QString& a, const std::string& b) {
    return a.trimmed().compare(text(b).trimmed(), Qt::CaseInsensitive) == 0;
}

QString sentence(QString words) {
    words = words.trimmed();
    if (words.isEmpty()) return words;
    words[0] = words[0].toUpper();
    return words.back().isPunct() && words.back() != QLatin1Char('"') ? words
                                                                      : words + QLatin1Char('.');
}

/// "Line 3, column number: "1x" is not a jersey number. Write a whole number from 0 to 99."
QString fault_words(const venue::RowProblem& problem) {
    const QString what = sentence(text(problem.what));
    const QString cure = sentence(text(problem.cure));
    const QString whole = cure.isEmpty() ? what : what + QLatin1Char(' ') + cure;
    const QString column = text(problem.column);
    if (problem.row == 0) return whole;
    if (column.isEmpty()) return RosterImport::tr("Line %1: %2").arg(problem.row).arg(whole);
    return RosterImport::tr("Line %1, column %2: %3").arg(problem.row).arg(column, whole);
}

}  // namespace

RosterImport::RosterImport(venue::DeskSource& source, QObject* parent)
    : QObject(parent),
      source_(source),
      lines_({QStringLiteral("line"), QStringLiteral("cells"), QStringLiteral("wrong")}),
      faults_({QStringLiteral("key"), QStringLiteral("row"), QStringLiteral("words")}) {}

QString RosterImport::example() const {
    return QString::fromLatin1(venue::roster_example).trimmed();
}

void RosterImport::say(int mark, const QString& words) {
    summary_mark_ = mark;
    summary_ = words;
    Q_EMIT changed();
}

/// The lines of the last reading stay on the screen, but they are not what was asked for now.
void RosterImport::refuse(const QString& words) {
    may_keep_ = false;
    say(static_cast<int>(Mark::fault), words);
}

void RosterImport::readFile(const QString& path) {
    const QUrl url(path.trimmed());
    const QString local = url.isLocalFile() ? url.toLocalFile() : path.trimmed();
    if (local.isEmpty()) {
        refuse(tr("Name a file, drop one here, or paste its lines."));
        return;
    }
    QFile file(local);
    if (!file.open(QIODevice::ReadOnly)) {
        refuse(tr("%1 cannot be opened: %2. Check the path.").arg(local, file.errorString()));
        return;
    }
    if (file.size() > static_cast<qint64>(venue::DeskSource::largest_roster_file)) {
        refuse(tr("%1 is larger than 1 MiB; divide it into several files.").arg(local));
        return;
    }
    check(file.readAll(), QFileInfo(local).fileName());
}

void RosterImport::readText(const QString& pasted) {
    const QByteArray csv = pasted.toUtf8();
    if (csv.trimmed().isEmpty()) {
        refuse(tr("There is nothing to read: paste the lines first."));
        return;
    }
    if (csv.size() > static_cast<qsizetype>(venue::DeskSource::largest_roster_file)) {
        refuse(tr("That is more than 1 MiB; read it in parts."));
        return;
    }
    check(csv, tr("pasted lines"));
}

void RosterImport::check(const QByteArray& csv, const QString& name) {
    csv_ = csv;
    file_name_ = name;
    show_lines({});
    show_faults({});
    ask(false);
}

void RosterImport::ask(bool keep) {
    busy_ = true;
    may_keep_ = false;
    const int request = ++request_;
    say(static_cast<int>(Mark::quiet), keep ? tr("Keeping the teams …") : tr("Checking …"));
    const auto answer = [self = QPointer<RosterImport>(this),
                         request](const venue::RosterReading& reading) {
        if (!self) return;
        QMetaObject::invokeMethod(
            self.data(),
            [self, reading, request] {
                if (self) self->take(reading, request);
            },
            Qt::QueuedConnection);
    };
    source_.read_roster({csv_.toStdString(), file_name_.toStdString(), reason_.toStdString()}, keep,
                        answer);
}

void RosterImport::sayWhy(const QString& reason) {
    if (reason_ == reason.trimmed()) return;
    reason_ = reason.trimmed();
    if (!csv_.isEmpty()) ask(false);
}

void RosterImport::keep() {
    if (mayKeep()) ask(true);
}

void RosterImport::cancel() {
    if (!busy_) return;
    ++request_;
    busy_ = false;
    say(static_cast<int>(Mark::quiet), tr("Cancelled. The lines are still here."));
}

void RosterImport::take(const venue::RosterReading& reading, int request) {
    if (request != request_) return;
    busy_ = false;
    show_lines(reading.problems);
    show_faults(reading);
    const int teams = static_cast<int>(reading.teams.size());
    may_keep_ = reading.failed.empty() && reading.problem_count == 0 && !reading.kept && teams > 0;
    if (!reading.failed.empty()) {
        say(static_cast<int>(Mark::fault), text(reading.failed));
    } else if (reading.problem_count > 0) {
        say(static_cast<int>(Mark::fault),
            reading.problem_count == 1 ? tr("One thing to put right; nothing is kept until then.")
                                       : tr("%1 things to put right; nothing is kept until then.")
                                             .arg(reading.problem_count));
    } else if (reading.kept) {
        say(static_cast<int>(Mark::good),
            teams == 1 ? tr("One team kept.") : tr("%1 teams kept.").arg(teams));
        // A reason is for one import.
        reason_.clear();
        Q_EMIT kept(teams);
    } else {
        say(static_cast<int>(Mark::good),
            teams == 1 ? tr("Nothing is wrong: one team is ready.")
                       : tr("Nothing is wrong: %1 teams are ready.").arg(teams));
    }
}

void RosterImport::show_lines(const std::vector<venue::RowProblem>& problems) {
    const std::string_view file(csv_.constData(), static_cast<std::size_t>(csv_.size()));
    const auto lines = venue::csv_lines(file, most_lines_shown);
    columns_.clear();
    std::vector<QVariantMap> rows;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        QStringList cells;
        for (const auto& cell : lines[i].cells) cells << text(cell);
        if (i == 0) columns_ = cells;
        QVariantList wrong;
        for (const auto& problem : problems) {
            if (problem.row != lines[i].number) continue;
            for (int c = 0; c < columns_.size(); ++c) {
                if (same_column(columns_[c], problem.column)) wrong << c;
            }
        }
        rows.push_back({{QStringLiteral("line"), lines[i].number},
                        {QStringLiteral("cells"), cells},
                        {QStringLiteral("wrong"), wrong}});
    }
    lines_.show(std::move(rows));
    Q_EMIT changed();
}

int RosterImport::row_of_line(int line) const {
    for (int row = 0; row < lines_.count(); ++row)
        if (lines_.field(row, QStringLiteral("line")).toInt() == line) return row;
    return -1;
}

void RosterImport::show_faults(const venue::RosterReading& reading) {
    std::vector<QVariantMap> rows;
    for (const auto& problem : reading.problems)
        rows.push_back({{QStringLiteral("key"), static_cast<int>(rows.size())},
                        {QStringLiteral("row"), row_of_line(problem.row)},
                        {QStringLiteral("words"), fault_words(problem)}});
    const int more = reading.problem_count - static_cast<int>(rows.size());
    more_faults_ = more > 0 ? tr("and %1 more: put these right, then read the file again").arg(more)
                            : QString();
    faults_.show(std::move(rows));
    Q_EMIT changed();
}

}  // namespace courthand::seats
