// Team lists from a file: shown as they were read, with what is wrong beside each line, and kept
// only when nothing is wrong. Whatever happens, the text stays on the screen.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QStringList>

#include "row_list.h"
#include "venue/desk_source.h"

namespace courthand::seats {

class RosterImport : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(courthand::seats::RowList* lines READ lines CONSTANT)
    Q_PROPERTY(courthand::seats::RowList* faults READ faults CONSTANT)
    Q_PROPERTY(QString moreFaults READ moreFaults NOTIFY changed)
    Q_PROPERTY(QString example READ example CONSTANT)
    Q_PROPERTY(QStringList columns READ columns NOTIFY changed)
    Q_PROPERTY(QString fileName READ fileName NOTIFY changed)
    Q_PROPERTY(QString source READ source NOTIFY changed)
    Q_PROPERTY(QString summary READ summary NOTIFY changed)
    Q_PROPERTY(int summaryMark READ summaryMark NOTIFY changed)
    Q_PROPERTY(bool busy READ busy NOTIFY changed)
    Q_PROPERTY(bool mayKeep READ mayKeep NOTIFY changed)

  public:
    /// More lines than this are read by the server, but only counted here.
    static constexpr std::size_t most_lines_shown = 2000;

    explicit RosterImport(venue::DeskSource& source, QObject* parent = nullptr);

    [[nodiscard]] RowList* lines() { return &lines_; }
    /// Everything that is wrong, in the order of the file: whole sentences with line and column,
    /// and in `row` that of `lines` they are about, -1 when it is not shown.
    [[nodiscard]] RowList* faults() { return &faults_; }
    /// Faults beyond those of one answer; empty: none.
    [[nodiscard]] QString moreFaults() const { return more_faults_; }
    /// A list as it should look.
    [[nodiscard]] QString example() const;
    [[nodiscard]] QStringList columns() const { return columns_; }
    [[nodiscard]] QString fileName() const { return file_name_; }
    /// The text that was read, as it is.
    [[nodiscard]] QString source() const { return QString::fromUtf8(csv_); }
    [[nodiscard]] QString summary() const { return summary_; }
    [[nodiscard]] int summaryMark() const { return summary_mark_; }
    [[nodiscard]] bool busy() const { return busy_; }
    [[nodiscard]] bool mayKeep() const { return may_keep_ && !busy_; }

    /// A path or a file: URL, as typed or dropped.
    Q_INVOKABLE void readFile(const QString& path);
    Q_INVOKABLE void readText(const QString& text);
    /// Why frozen lists change; what was read is checked again with it.
    Q_INVOKABLE void sayWhy(const QString& reason);
    Q_INVOKABLE void keep();
    /// Gives up waiting for the server; the text stays.
    Q_INVOKABLE void cancel();

  Q_SIGNALS:
    void changed();
    void kept(int teams);

  private:
    void check(const QByteArray& csv, const QString& name);
    void ask(bool keep);
    void take(const venue::RosterReading& reading, int request);
    void refuse(const QString& words);
    void say(int mark, const QString& words);
    void show_lines(const std::vector<venue::RowProblem>& problems);
    void show_faults(const venue::RosterReading& reading);
    [[nodiscard]] int row_of_line(int line) const;

    venue::DeskSource& source_;
    RowList lines_;
    RowList faults_;
    QString more_faults_;
    QByteArray csv_;
    QString file_name_;
    QString reason_;
    QStringList columns_;
    QString summary_;
    int summary_mark_ = 4;
    int request_ = 0;  ///< answers to earlier requests are dropped
    bool busy_ = false;
    bool may_keep_ = false;
};

}  // namespace courthand::seats
