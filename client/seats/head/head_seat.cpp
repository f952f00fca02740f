#include "head_seat.h"

#include <QDateTime>

#include "venue_words.h"

namespace courthand::seats {

namespace {
// Ages count by the second; four times as often ends a held order soon after its second is over.
constexpr std::chrono::milliseconds tick_time{250};
}  // namespace

std::chrono::milliseconds steady_now() {
    return std::chrono::duration_cast<std::chrono::milliseconds>(
        std::chrono::steady_clock::now().time_since_epoch());
}

HeadSeat::HeadSeat(venue::BoardSource& source, venue::EventSource& event, QString venue_name,
                   SteadyNow now, QObject* parent)
    : QObject(parent),
      source_(source),
      venue_name_(std::move(venue_name)),
      now_(std::move(now)),
      standings_(event),
      page_(source) {
    connect(&standings_, &StandingsPage::changed, this,
            [this] { page_.show_event(standings_.state()); });
    connect(&timer_, &QTimer::timeout, this, &HeadSeat::tick);
    timer_.start(tick_time);
    source_.start({[this](const venue::Board& board) {
                       {
                           const std::scoped_lock lock{newest_mutex_};
                           newest_ = board;
                       }
                       QMetaObject::invokeMethod(this, &HeadSeat::take_board, Qt::QueuedConnection);
                   },
                   [this](const venue::Link& link) {
                       QMetaObject::invokeMethod(
                           this, [this, link] { take_link(link); }, Qt::QueuedConnection);
                   }});
}

HeadSeat::~HeadSeat() {
    source_.stop();
}

venue::Moment HeadSeat::server_now() const {
    return board_.as_of + (now_() - board_at_);
}

void HeadSeat::take_board() {
    std::optional<venue::Board> board;
    {
        const std::scoped_lock lock{newest_mutex_};
        board.swap(newest_);
    }
    if (!board) return;
    board_ = std::move(*board);
    board_at_ = now_();
    courts_.show(board_);
    alerts_.show(board_);
    liberos_.show(board_);
    page_.show(board_);
    tick();
}

void HeadSeat::take_link(const venue::Link& link) {
    if (link_.state == venue::LinkState::live && link.state != venue::LinkState::live) {
        live_until_ = now_();
    }
    link_ = link;
    Q_EMIT linkChanged();
}

void HeadSeat::tick() {
    const auto server = server_now();
    courts_.tick(server);
    alerts_.tick(now_(), server);
    page_.tick(server);
    Q_EMIT ticked();
    if (link_.state != venue::LinkState::live) Q_EMIT linkChanged();
}

QString HeadSeat::clock() const {
    if (board_.as_of == venue::Moment{}) return {};
    return QDateTime::fromMSecsSinceEpoch(server_now().count()).toString(QStringLiteral("HH:mm"));
}

int HeadSeat::linkMark() const {
    return static_cast<int>(mark_of(link_.state));
}

QString HeadSeat::linkWord() const {
    switch (link_.state) {
        case venue::LinkState::live:
            return tr("Live");
        case venue::LinkState::connecting:
            return tr("Connecting");
        case venue::LinkState::lost:
            return tr("No connection for %1: the tables go on, this board stands still")
                .arg(span_words(now_() - live_until_));
        case venue::LinkState::refused:
            return text(link_.words);
    }
    return {};
}

void HeadSeat::touched() {
    alerts_.hold(now_());
}

void HeadSeat::openAlert(const QString& alert_id) {
    touched();
    page_.open_alert(board_, alert_id.toStdString());
    page_.tick(server_now());
}

void HeadSeat::openCourt(int court) {
    const int row = rowOfCourt(court);
    if (row < 0) return;
    const QString id = courts_.data(courts_.index(row), CourtList::AlertIdRole).toString();
    if (!id.isEmpty()) openAlert(id);
}

void HeadSeat::answerTakeOver(const QString& alert_id, bool consent) {
    touched();
    const auto* const alert = board_.alert(alert_id.toStdString());
    if (alert != nullptr) page_.answer_take_over(*alert, consent);
}

int HeadSeat::rowOfCourt(int court) const {
    for (std::size_t i = 0; i < board_.courts.size(); ++i) {
        if (static_cast<int>(board_.courts[i].court) == court) return static_cast<int>(i);
    }
    return -1;
}

}  // namespace courthand::seats
