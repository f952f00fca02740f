// The desk's one button for the whole event as files: where to, with names or without, how far it
// is, and what came of it.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <string>

#include "screen_post.h"
#include "venue/event_book.h"
#include "venue/event_exporter.h"

namespace courthand::seats {

class ExportPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(bool busy READ busy NOTIFY changed)
    Q_PROPERTY(QString progress READ progress NOTIFY changed)
    Q_PROPERTY(QString written READ written NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)

  public:
    /// `author`: the function of the person at this desk. Exporter and book outlive the page; what
    /// is under way when the page goes is told to nobody.
    ExportPage(venue::EventExporter& exporter, const venue::EventBook& book, std::string author,
               QObject* parent = nullptr);

    [[nodiscard]] bool busy() const { return busy_; }
    /// "3 files, 1.2 MB so far".
    [[nodiscard]] QString progress() const;
    /// What was written where; empty until then.
    [[nodiscard]] QString written() const { return written_; }
    [[nodiscard]] QString problem() const { return problem_; }

    /// Offered to the person: below the documents of this computer's user, named after the event.
    Q_INVOKABLE QString usualFolder() const;
    Q_INVOKABLE void save(const QString& folder, bool with_names);
    /// A new question: what came of the last one goes.
    Q_INVOKABLE void forget();

  Q_SIGNALS:
    void changed();
    /// It is written; the words say what and where.
    void told(const QString& words);
    /// It is not; the words say why, and the cure.
    void refused(const QString& words);

  private:
    [[nodiscard]] QString amount() const;
    void end(const venue::Outcome& outcome);

    venue::EventExporter& exporter_;
    const venue::EventBook& book_;
    std::string author_;
    venue::ExportProgress so_far_;
    bool busy_ = false;
    QString folder_;
    QString written_;
    QString problem_;
    ScreenPost post_{*this};
};

/// "harbour-cup-2026-11-28"; "event" when nothing is known of it.
[[nodiscard]] QString folder_name(const event::TournamentState& state);

}  // namespace courthand::seats
