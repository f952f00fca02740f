#include "record/export_page.h"

#include <QDir>
#include <QLocale>
#include <QStandardPaths>
#include <filesystem>
#include <utility>

#include "venue_words.h"

namespace courthand::seats {

namespace {

/// Letters of the name of a folder: it stays short enough to be read on a list.
constexpr qsizetype most_folder_letters = 48;

}  // namespace

QString folder_name(const event::TournamentState& state) {
    if (!state.opened) return QStringLiteral("event");
    QString name;
    for (const QChar letter : text(state.opened->name).toLower()) {
        const bool plain = letter.isLetterOrNumber() && letter.unicode() < 128;
        if (plain)
            name += letter;
        else if (!name.isEmpty() && !name.endsWith(QLatin1Char('-')))
            name += QLatin1Char('-');
    }
    name.truncate(most_folder_letters);
    while (name.endsWith(QLatin1Char('-'))) name.chop(1);
    if (name.isEmpty()) name = QStringLiteral("event");
    return name + QLatin1Char('-') + text(event::written(state.opened->first_day));
}

ExportPage::ExportPage(venue::EventExporter& exporter, const venue::EventBook& book,
                       std::string author, QObject* parent)
    : QObject(parent), exporter_(exporter), book_(book), author_(std::move(author)) {}

QString ExportPage::amount() const {
    return tr("%1, %2").arg(so_far_.files == 1 ? tr("1 file") : tr("%1 files").arg(so_far_.files),
                            QLocale::c().formattedDataSize(static_cast<qint64>(so_far_.bytes)));
}

QString ExportPage::progress() const {
    if (!busy_) return {};
    return so_far_.files == 0 ? tr("Asking the server") : tr("%1 so far").arg(amount());
}

QString ExportPage::usualFolder() const {
    return QDir{QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation)}.filePath(
        folder_name(*book_.state));
}

void ExportPage::forget() {
    if (busy_) return;
    written_.clear();
    problem_.clear();
    Q_EMIT changed();
}

void ExportPage::save(const QString& folder, bool with_names) {
    if (busy_) return;
    forget();
    folder_ = folder.trimmed();
    if (!QDir::isAbsolutePath(folder_)) {
        problem_ =
            tr("Name the folder from the root of this computer, such as %1.").arg(usualFolder());
        Q_EMIT changed();
        return;
    }
    busy_ = true;
    so_far_ = {};
    Q_EMIT changed();
    exporter_.save(
        {std::filesystem::path{folder_.toStdU16String()}, with_names, author_},
        [this, to = post_.to()](const venue::ExportProgress& so_far) {
            to.call([this, so_far] {
                so_far_ = so_far;
                Q_EMIT changed();
            });
        },
        [this, to = post_.to()](const venue::Outcome& outcome) {
            to.call([this, outcome] { end(outcome); });
        });
}

void ExportPage::end(const venue::Outcome& outcome) {
    busy_ = false;
    problem_ = text(outcome.problem);
    if (outcome.done) written_ = tr("Written: %1 in %2").arg(amount(), folder_);
    Q_EMIT changed();
    if (outcome.done)
        Q_EMIT told(written_);
    else
        Q_EMIT refused(problem_);
}

}  // namespace courthand::seats
