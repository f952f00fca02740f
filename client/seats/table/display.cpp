#include "display.h"

#include <QStringList>
#include <algorithm>

#include "courthand/rules/judge.h"

namespace courthand::client {

namespace {

QString qs(const std::string& text) {
    return QString::fromStdString(text);
}

}  // namespace

SideFacts Display::side(Team team, const Choice& choice, const SideMarks& marks) const {
    const MatchState& s = state_;
    const TeamSet& set = s.set.team[team];
    const CourtView view{s, wording_, choice};
    SideFacts facts;
    facts.team = team;
    facts.name = wording_.team(team);
    facts.letter = team == Team::A ? tr("A") : tr("B");
    facts.colour = qs(sheet_.colours[team]);
    facts.points = team == Team::A ? s.set.score.a : s.set.score.b;
    facts.sets = s.team[team].sets_won;
    facts.timeOuts = set.time_outs;
    facts.timeOutLimit = rules_.time_outs;
    facts.substitutions = set.substitutions;
    facts.substitutionLimit = rules_.substitutions;
    facts.serving = s.set.serving == team && s.set.number > 0;
    facts.checked = set.checked != 0;
    facts.awaitingSix = marks.awaiting_six;
    facts.liberoWords = libero_words(team);
    facts.sixWords = Wording::six(on_court(set));
    // Ticks have done their work with the check: in play they would hide what else a tile says.
    facts.places = view.places(team, set.checked != 0 ? 0U : marks.ticked);
    facts.liberos = view.liberos(team);
    facts.roster = roster(team);
    for (const SetResult& result : s.results)
        if (result.played != 0)
            facts.setScores << QString::number(team == Team::A ? result.score.a : result.score.b);
    return facts;
}

QString Display::libero_words(Team team) const {
    const TeamSet& set = state_.set.team[team];
    QStringList words;
    for (const Jersey jersey : on_court(set))
        if (acts_as_libero(set, jersey))
            words << tr("libero %1 is on court for %2")
                         .arg(Wording::number(jersey), Wording::number(replaced_by(set, jersey)));
    if (!words.isEmpty()) return words.join(tr("; "));
    return set.liberos[0].worn() || set.liberos[1].worn() ? tr("no libero on court")
                                                          : tr("plays without a libero");
}

std::vector<PlayerTile> Display::roster(Team team) const {
    std::vector<PlayerTile> list;
    const TeamRecord& record = state_.team[team];
    const Six six = on_court(state_.set.team[team]);
    for (std::size_t i = 0; i < record.count; ++i) {
        const Jersey jersey = record.players[i].jersey;
        if (!jersey.worn()) continue;
        PlayerTile player;
        player.number = jersey.number();
        player.name = names_[team][jersey.number()];
        player.on_court = std::find(six.begin(), six.end(), jersey) != six.end();
        player.captain = jersey == record.captain;
        list.push_back(player);
    }
    return list;
}

std::vector<Notice> Display::notices(const std::vector<Verdict>& standing) const {
    std::vector<Notice> list;
    for (const Verdict& verdict : standing) {
        Notice notice;
        notice.open = verdict.phase == Phase::open;
        notice.phase = Wording::phase(verdict.phase);
        notice.text = wording_.verdict(verdict);
        notice.rule = wording_.rule(verdict);
        notice.remedy = wording_.remedy(verdict);
        notice.before = Wording::six(verdict.before);
        notice.after = Wording::six(verdict.after);
        notice.rally = verdict.rally;
        notice.entry = static_cast<int>(verdict.entry);
        notice.reason = static_cast<int>(verdict.reason);
        notice.team = static_cast<int>(verdict.team);
        // The core rules the oldest fault of a kind.
        notice.behind = std::any_of(standing.begin(), standing.end(), [&](const Verdict& other) {
            return other.reason == verdict.reason && other.team == verdict.team &&
                   other.entry < verdict.entry;
        });
        list.push_back(notice);
    }
    return list;
}

QString Display::choice_words(const Choice& choice) const {
    if (!choice.made()) return {};
    const QString number = Wording::number(choice.jersey);
    const Six six = on_court(state_.set.team[choice.team]);
    const bool stands = std::find(six.begin(), six.end(), choice.jersey) != six.end();
    return stands ? tr("%1 goes off: touch who comes in for %1").arg(number)
                  : tr("%1 comes in: touch the place to take").arg(number);
}

std::vector<PlayerTile> Display::other_numbers(const Choice& choice) const {
    std::vector<PlayerTile> list;
    if (!choice.made()) return list;
    const TeamSet& set = state_.set.team[choice.team];
    const Six six = on_court(set);
    const auto shown = [&](Jersey j) {
        return std::find(six.begin(), six.end(), j) != six.end() || beside(set, 0) == j ||
               beside(set, 1) == j;
    };
    for (const Option& option : choice.options) {
        const auto& replacement = std::get<LiberoReplacement>(option.fact);
        const Jersey other = replacement.in == choice.jersey ? replacement.out : replacement.in;
        if (!other.worn() || shown(other)) continue;
        PlayerTile entry;
        entry.number = other.number();
        entry.legal = option.legal;
        entry.why_not = option.legal ? QString() : Wording::brief(option.reason);
        list.push_back(entry);
    }
    return list;
}

std::vector<PlayerTile> Display::captains(Team team) const {
    std::vector<PlayerTile> list;
    for (const Option& option : legal_actions(rules_, state_, team).captains) {
        const auto* named = std::get_if<GameCaptain>(&option.fact);
        if (named == nullptr) continue;
        PlayerTile entry;
        entry.number = named->player.number();
        entry.legal = option.legal;
        entry.why_not = option.legal ? QString() : Wording::brief(option.reason);
        list.push_back(entry);
    }
    return list;
}

}  // namespace courthand::client
