#include "venue/memory_board.h"

#include <algorithm>

namespace courthand::venue {

namespace {

Alert* find(Board& board, const std::string& id) {
    const auto found = std::find_if(board.alerts.begin(), board.alerts.end(),
                                    [&](const Alert& alert) { return alert.id == id; });
    return found == board.alerts.end() ? nullptr : &*found;
}

Outcome ended() {
    return Outcome::refused("This alert has ended; nothing is left to do.");
}

}  // namespace

MemoryBoard::MemoryBoard(Board board, std::string own_name)
    : board_(std::move(board)), own_name_(std::move(own_name)) {}

void MemoryBoard::start(Listener listener) {
    {
        const std::scoped_lock lock{mutex_};
        listener_ = std::move(listener);
    }
    show(Link{LinkState::live, {}});
    tell();
}

void MemoryBoard::stop() {
    const std::scoped_lock lock{mutex_};
    listener_ = {};
}

void MemoryBoard::tell() const {
    const std::scoped_lock lock{mutex_};
    if (listener_.board) listener_.board(board_);
}

void MemoryBoard::show(Board board) {
    {
        const std::scoped_lock lock{mutex_};
        board_ = std::move(board);
    }
    tell();
}

void MemoryBoard::show(const Link& link) {
    const std::scoped_lock lock{mutex_};
    if (listener_.link) listener_.link(link);
}

Board MemoryBoard::board() const {
    const std::scoped_lock lock{mutex_};
    return board_;
}

std::vector<MemoryBoard::Ruled> MemoryBoard::rulings() const {
    const std::scoped_lock lock{mutex_};
    return rulings_;
}

void MemoryBoard::show_fork(Fork fork) {
    const std::scoped_lock lock{mutex_};
    fork_ = std::move(fork);
}

std::vector<MemoryBoard::Settled> MemoryBoard::settled() const {
    const std::scoped_lock lock{mutex_};
    return settled_;
}

void MemoryBoard::look_at_fork(const std::string&, ForkAnswer answer) {
    Fork fork;
    {
        const std::scoped_lock lock{mutex_};
        fork = fork_;
    }
    answer(fork);
}

void MemoryBoard::settle_fork(const std::string& alert_id, ForkChoice choice,
                              const std::string& note, Answer answer) {
    Outcome outcome;
    {
        const std::scoped_lock lock{mutex_};
        const auto gone =
            std::erase_if(board_.alerts, [&](const Alert& alert) { return alert.id == alert_id; });
        if (gone == 0)
            outcome = ended();
        else
            settled_.push_back({alert_id, choice, note});
    }
    answer(outcome);
    tell();
}

void MemoryBoard::claim(const std::string& alert_id, Answer answer) {
    Outcome outcome;
    {
        const std::scoped_lock lock{mutex_};
        Alert* const alert = find(board_, alert_id);
        if (alert == nullptr) {
            outcome = ended();
        } else if (!alert->claimed_by.empty()) {
            outcome = Outcome::refused(alert->claimed_by + " was first and is on the way.");
        } else {
            alert->claimed_by = own_name_;
            alert->life = AlertLife::claimed;
        }
    }
    answer(outcome);
    tell();
}

void MemoryBoard::acknowledge(const std::string& alert_id, Answer answer) {
    Outcome outcome;
    {
        const std::scoped_lock lock{mutex_};
        Alert* const alert = find(board_, alert_id);
        if (alert == nullptr)
            outcome = ended();
        else
            alert->seen = true;
    }
    answer(outcome);
    tell();
}

void MemoryBoard::rule(const std::string& alert_id, RulingChoice choice, const std::string& note,
                       Answer answer) {
    Outcome outcome;
    {
        const std::scoped_lock lock{mutex_};
        if (find(board_, alert_id) == nullptr)
            outcome = ended();
        else
            rulings_.push_back({alert_id, choice, note});
        board_.alerts.erase(
            std::remove_if(board_.alerts.begin(), board_.alerts.end(),
                           [&](const Alert& alert) { return alert.id == alert_id; }),
            board_.alerts.end());
    }
    answer(outcome);
    tell();
}

void MemoryBoard::answer_take_over(const Id& match_id, const Id& device_id, bool consent,
                                   Answer answer) {
    Outcome outcome = Outcome::refused("This device does not ask for the match any more.");
    {
        const std::scoped_lock lock{mutex_};
        const auto asks = [&](const Alert& alert) {
            return !device_id.empty() && alert.asking_device == device_id &&
                   alert.match_id == match_id;
        };
        const auto found = std::find_if(board_.alerts.begin(), board_.alerts.end(), asks);
        if (found != board_.alerts.end()) {
            outcome = Outcome::ok();
            take_overs_.push_back({match_id, device_id, consent});
            board_.alerts.erase(found);
        }
    }
    answer(outcome);
    tell();
}

std::vector<MemoryBoard::TakeOver> MemoryBoard::take_overs() const {
    const std::scoped_lock lock{mutex_};
    return take_overs_;
}

void MemoryBoard::shelve(const std::string& alert_id, std::chrono::minutes time,
                         const std::string& reason, Answer answer) {
    Outcome outcome;
    {
        const std::scoped_lock lock{mutex_};
        Alert* const alert = find(board_, alert_id);
        if (alert == nullptr) {
            outcome = ended();
        } else if (alert->severity == Severity::critical) {
            outcome = Outcome::refused("A critical alert cannot be shelved: somebody must go.");
        } else {
            alert->life = AlertLife::shelved;
            alert->shelved_until = board_.as_of + time;
            alert->note = reason;
        }
    }
    answer(outcome);
    tell();
}

}  // namespace courthand::venue
