#include "roster_import.h"

#include <QFile>
#include <QFileInfo>
#include <QPointer>
#include <QUrl>
#include <QVariantList>
#include <string_view>

#include "venue/csv_lines.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

bool same_column(const QString& a, const std::string& b) {
    return a.trimmed().compare(text(b).trimmed(), Qt::CaseInsensitive) == 0;
}

QString problem_words(const venue::RowProblem& problem) {
    QString words = text(problem.what);
    if (!problem.column.empty()) {
        words =
            RosterImport::tr("%1: %2", "column, what is wrong").arg(text(problem.column), words);
    }
    if (problem.cure.empty()) return words;
    return RosterImport::tr("%1; %2", "what is wrong, how to put it right")
        .arg(words, text(problem.cure));
}

}  // namespace

RosterImport::RosterImport(venue::DeskSource& source, QObject* parent)
    : QObject(parent),
      source_(source),
      lines_({QStringLiteral("line"), QStringLiteral("cells"), QStringLiteral("wrong"),
              QStringLiteral("problem")}) {}

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
    source_.read_roster(csv_.toStdString(), file_name_.toStdString(), keep, answer);
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
    QStringList whole_file;
    for (const auto& problem : problems) {
        if (problem.row == 0) whole_file << problem_words(problem);
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
        QStringList cells;
        for (const auto& cell : lines[i].cells) cells << text(cell);
        if (i == 0) columns_ = cells;
        QStringList words;
        if (i == 0) words = whole_file;
        QVariantList wrong;
        for (const auto& problem : problems) {
            if (problem.row != lines[i].number) continue;
            words << problem_words(problem);
            for (int c = 0; c < columns_.size(); ++c) {
                if (same_column(columns_[c], problem.column)) wrong << c;
            }
        }
        rows.push_back({{QStringLiteral("line"), lines[i].number},
                        {QStringLiteral("cells"), cells},
                        {QStringLiteral("wrong"), wrong},
                        {QStringLiteral("problem"), words.join(QLatin1Char('\n'))}});
    }
    lines_.show(std::move(rows));
    Q_EMIT changed();
}

}  // namespace courthand::seats
