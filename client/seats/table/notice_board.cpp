#include "notice_board.h"

#include <algorithm>

namespace courthand::client {

void NoticeBoard::look(const QString& last_entry) {
    standing_ = look_.session.standing();
    news_.drawn(!problem().isEmpty());
    last_entry_ = last_entry;
}

int NoticeBoard::worst() const {
    const auto open = std::find_if(standing_.begin(), standing_.end(), [](const Verdict& verdict) {
        return verdict.phase == Phase::open;
    });
    if (open != standing_.end()) return static_cast<int>(open - standing_.begin());
    return standing_.empty() ? -1 : 0;
}

QString NoticeBoard::line() const {
    if (!problem().isEmpty()) return problem();
    if (const int at = worst(); at >= 0)
        return look_.wording.verdict(standing_[static_cast<std::size_t>(at)]);
    for (const QString& words : {news(), saving_.now().help(), lists_.offer()})
        if (!words.isEmpty()) return words;
    return last_entry_.isEmpty() ? QString() : tr("Last entry: %1").arg(last_entry_);
}

QString NoticeBoard::detail() const {
    const int at = worst();
    if (at < 0) return quiet() ? saving_.now().error() : QString();
    const Verdict& verdict = standing_[static_cast<std::size_t>(at)];
    if (!problem().isEmpty()) return look_.wording.verdict(verdict);
    if (!news_.isEmpty()) return news();
    const QString rule = look_.wording.rule(verdict.reason);
    const QString remedy = look_.wording.remedy(verdict);
    return rule.isEmpty() ? remedy : tr("%1 (%2)").arg(remedy, rule);
}

bool NoticeBoard::quiet() const {
    return problem().isEmpty() && standing_.empty() && news_.isEmpty() &&
           saving_.now().help().isEmpty() && lists_.offer().isEmpty();
}

QString NoticeBoard::help() const {
    const Saving& saving = saving_.now();
    for (const QString& words :
         {problem(), news(), saving.help(), saving.not_enrolled(), saving.error(), lists_.offer()})
        if (!words.isEmpty()) return words;
    return {};
}

int NoticeBoard::faultAt(int entry, int reason, int team) const {
    const auto at = std::find_if(standing_.begin(), standing_.end(), [&](const Verdict& verdict) {
        return static_cast<int>(verdict.entry) == entry &&
               static_cast<int>(verdict.reason) == reason && static_cast<int>(verdict.team) == team;
    });
    return at == standing_.end() ? -1 : static_cast<int>(at - standing_.begin());
}

bool NoticeBoard::rule(int entry, int reason, int team, bool accept) {
    // A ruling of the head official may have come in this very moment.
    standing_ = look_.session.standing();
    const int at = faultAt(entry, reason, team);
    if (at < 0) {
        table_.say(tr("That fault no longer stands: nothing was recorded"), false);
        table_.show_again();
        return false;
    }
    const Verdict& verdict = standing_[static_cast<std::size_t>(at)];
    if (Display{look_}.notices(standing_)[static_cast<std::size_t>(at)].behind) {
        table_.say(tr("An older fault of the same kind is ruled first"), false);
        return false;
    }
    return table_.perform({Ruling{accept ? Ruling::Decision::accept : Ruling::Decision::overrule,
                                  verdict.reason, verdict.team}});
}

}  // namespace courthand::client
