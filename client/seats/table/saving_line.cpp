#include "saving_line.h"

namespace courthand::client {

namespace {

/// How often the line "saved, waiting to send" is looked at, in milliseconds.
constexpr int look_ms = 500;

}  // namespace

SavingLine::SavingLine(MatchSession& session) : session_{session} {
    timer_.setInterval(look_ms);
    connect(&timer_, &QTimer::timeout, this, &SavingLine::look);
    timer_.start();
}

void SavingLine::look() {
    const Saving before = now_;
    now_ = Saving{session_.sync_status(), session_.writing()};
    if (now_ == before) return;
    Q_EMIT changed();
    if (now_.writing.who != before.writing.who) Q_EMIT writerChanged();
}

void SavingLine::askToGoOn() {
    if (!canAsk()) return;
    session_.ask_to_go_on();
    look();
}

}  // namespace courthand::client
