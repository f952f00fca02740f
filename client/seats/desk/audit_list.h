// What was done and what was refused, newest first, a page at a time.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <vector>

#include "audit_rows.h"
#include "row_list.h"
#include "venue/desk_source.h"

namespace courthand::seats {

class AuditList : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(courthand::seats::RowList* rows READ rows CONSTANT)
    Q_PROPERTY(bool more READ more NOTIFY changed)
    Q_PROPERTY(bool busy READ busy NOTIFY changed)
    Q_PROPERTY(bool asked READ asked NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)

  public:
    /// A person does not read further; a screen need not hold more.
    static constexpr std::size_t most_shown = 2000;

    /// `words` name what the lines are about; what they stand on outlives the list.
    AuditList(venue::DeskSource& source, const AuditWords& words, QObject* parent = nullptr);

    [[nodiscard]] RowList* rows() { return &rows_; }
    /// Older lines may follow.
    [[nodiscard]] bool more() const { return more_; }
    [[nodiscard]] bool busy() const { return busy_; }
    /// An answer has come since the page was opened.
    [[nodiscard]] bool asked() const { return asked_; }
    [[nodiscard]] QString problem() const { return problem_; }

    /// Tells the lines that are here anew: what names them has changed.
    void show();
    /// Begins again with the newest.
    Q_INVOKABLE void readNewest();
    Q_INVOKABLE void readOlder();

  Q_SIGNALS:
    void changed();
    /// The lines are told, or told anew.
    void shown();

  private:
    void ask(std::uint64_t before);
    void take(const venue::AuditPage& page, std::uint64_t before);

    venue::DeskSource& source_;
    AuditWords words_;
    RowList rows_;
    std::vector<venue::AuditListed> lines_;
    bool more_ = false;
    bool busy_ = false;
    bool asked_ = false;
    QString problem_;
};

}  // namespace courthand::seats
