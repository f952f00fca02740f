#include "table_seat.h"

#include <QStringList>
#include <algorithm>

namespace courthand::client {

namespace {

/// How often the line "saved, waiting to send" is looked at, in milliseconds.
constexpr int sync_look_ms = 500;
/// Undo goes back further than a set can be long; older acts are struck fact by fact.
constexpr std::size_t most_acts = 2000;
/// A remark or a protest is a short text; the journal holds no essays.
constexpr qsizetype longest_text = 500;

Jersey jersey_of(int number) {
    return number < 0 || number > Jersey::largest ? Jersey::none()
                                                  : Jersey{static_cast<std::uint8_t>(number)};
}

bool raises(const Verdict& verdict) {
    return verdict.phase == Phase::armed || verdict.phase == Phase::open;
}

QString qs(const std::string& text) { return QString::fromStdString(text); }

}  // namespace

TableSeat::TableSeat(MatchSession& session, QObject* parent) : QObject{parent}, session_{session} {
    const MatchSheet& sheet = session_.sheet();
    wording_ = Wording{{qs(sheet.names.a), qs(sheet.names.b)},
                       session_.rules().family,
                       find_profile(sheet.profile)};
    for (const Team team : {Team::A, Team::B})
        for (const MatchSheet::Player& player : sheet.players[team])
            if (player.number.worn()) names_[team][player.number.number()] = qs(player.name);
    sync_timer_.setInterval(sync_look_ms);
    connect(&sync_timer_, &QTimer::timeout, this, &TableSeat::refreshSync);
    sync_timer_.start();
    refresh();
}

// ---- what is shown ----------------------------------------------------------------------------------

Team TableSeat::teamOn(bool onLeft) const {
    const MatchState& s = state();
    const Team left = s.set.number > 0 || s.tossed == 0 ? s.set.left : s.toss_left;
    const Team shown_left = flipped_ ? opponent(left) : left;
    return onLeft ? shown_left : opponent(shown_left);
}

bool TableSeat::isLeft(Team team) const { return teamOn(true) == team; }

TableSeat::Page TableSeat::page() const {
    if (writing_.who == Writing::Who::elsewhere) return ElsewherePage;
    if (correcting_) return LineUpPage;
    if (state().set.stage == Stage::match_over) return ResultPage;
    switch (prompt_.kind) {
        case Prompt::Kind::roster_missing: return RosterPage;
        case Prompt::Kind::toss_missing: return TossPage;
        case Prompt::Kind::set_to_start: return StartPage;
        case Prompt::Kind::lineup_missing: return LineUpPage;
        case Prompt::Kind::match_finished: return ResultPage;
        case Prompt::Kind::none:
        case Prompt::Kind::libero_box_open:
        case Prompt::Kind::check_missing:
        case Prompt::Kind::libero_must_leave:
        case Prompt::Kind::place_empty:
        case Prompt::Kind::barred_must_leave:
        case Prompt::Kind::captain_to_name:
        case Prompt::Kind::courts_to_switch:
        case Prompt::Kind::serve:
        case Prompt::Kind::match_interrupted:
        case Prompt::Kind::decide_rally: break;
    }
    return state().set.stage == Stage::set_over ? StartPage : CourtPage;
}

QString TableSeat::court() const { return QString::number(session_.sheet().court); }
QString TableSeat::matchNumber() const { return QString::number(session_.sheet().number); }
QString TableSeat::profile() const { return qs(session_.sheet().profile); }
int TableSeat::setNumber() const { return state().set.number; }
bool TableSeat::deciding() const { return state().format.deciding(state().set.number); }
bool TableSeat::inPlay() const { return state().set.stage == Stage::in_play; }

bool TableSeat::rallyOpen() const {
    // Before the first serve the sheets are settled first; after that a rally can always be
    // recorded, whatever else is waiting.
    switch (prompt_.kind) {
        case Prompt::Kind::lineup_missing:
        case Prompt::Kind::libero_box_open:
        case Prompt::Kind::check_missing: return state().set.stage != Stage::before_set;
        case Prompt::Kind::none:
        case Prompt::Kind::roster_missing:
        case Prompt::Kind::toss_missing:
        case Prompt::Kind::set_to_start:
        case Prompt::Kind::match_interrupted:
        case Prompt::Kind::match_finished: return false;
        case Prompt::Kind::libero_must_leave:
        case Prompt::Kind::place_empty:
        case Prompt::Kind::barred_must_leave:
        case Prompt::Kind::captain_to_name:
        case Prompt::Kind::courts_to_switch:
        case Prompt::Kind::serve:
        case Prompt::Kind::decide_rally: break;
    }
    return true;
}

bool TableSeat::lineUpOnLeft() const { return isLeft(line_up_.team()); }

QString TableSeat::nextWords() const {
    for (const Team team : {Team::A, Team::B})
        if (awaiting_six_[team])
            return tr("After the time-out: are the same six of %1 back?").arg(wording_.team(team));
    return wording_.prompt(prompt_);
}

QString TableSeat::undoWords() const {
    return acts_.empty() ? QString() : acts_.back().words;
}

QString TableSeat::resultWords() const {
    const MatchState& s = state();
    if (s.set.stage != Stage::match_over) return {};
    return tr("%1 wins %2 : %3")
        .arg(wording_.team(s.winner))
        .arg(s.team[s.winner].sets_won)
        .arg(s.team[opponent(s.winner)].sets_won);
}

QVariantList TableSeat::notices() const {
    QVariantList list;
    for (const Verdict& verdict : standing_) {
        QVariantMap notice;
        notice[QStringLiteral("open")] = verdict.phase == Phase::open;
        notice[QStringLiteral("phase")] = Wording::phase(verdict.phase);
        notice[QStringLiteral("text")] = wording_.verdict(verdict);
        notice[QStringLiteral("rule")] = wording_.rule(verdict);
        notice[QStringLiteral("remedy")] = wording_.remedy(verdict);
        notice[QStringLiteral("before")] = Wording::six(verdict.before);
        notice[QStringLiteral("after")] = Wording::six(verdict.after);
        notice[QStringLiteral("rally")] = verdict.rally;
        notice[QStringLiteral("entry")] = verdict.entry;
        list << notice;
    }
    return list;
}

QString TableSeat::choiceWords() const {
    if (!choice_.made()) return {};
    const QString number = Wording::number(choice_.jersey);
    const TeamSet& set = state().set.team[choice_.team];
    const Six six = on_court(set);
    const bool stands = std::find(six.begin(), six.end(), choice_.jersey) != six.end();
    return stands ? tr("%1 goes off: touch who comes in for him").arg(number)
                  : tr("%1 comes in: touch the place he takes").arg(number);
}

QVariantList TableSeat::otherNumbers() const {
    QVariantList list;
    if (!choice_.made()) return list;
    const TeamSet& set = state().set.team[choice_.team];
    const Six six = on_court(set);
    const auto shown = [&](Jersey j) {
        return std::find(six.begin(), six.end(), j) != six.end() || beside(set, 0) == j ||
               beside(set, 1) == j;
    };
    for (const Option& option : choice_.options) {
        const auto& replacement = std::get<LiberoReplacement>(option.fact);
        const Jersey other =
            replacement.in == choice_.jersey ? replacement.out : replacement.in;
        if (!other.worn() || shown(other)) continue;
        QVariantMap entry;
        entry[QStringLiteral("number")] = other.number();
        entry[QStringLiteral("legal")] = option.legal;
        entry[QStringLiteral("whyNot")] = option.legal ? QString() : Wording::brief(option.reason);
        list << entry;
    }
    return list;
}

QString TableSeat::proposalWords() const { return proposal_ ? proposal_->words : QString(); }
QString TableSeat::proposalWhy() const { return proposal_ ? proposal_->why : QString(); }

QString TableSeat::typingFor() const {
    return typing_for_ ? wording_.team(*typing_for_) : QString();
}

QString TableSeat::syncWords() const {
    const auto count = [](std::size_t entries) { return static_cast<int>(entries); };
    if (sync_.practice) return tr("practice, not sent");
    if (sync_.refused > 0)
        return tr("saved, %n not taken by the server", nullptr, count(sync_.refused));
    if (sync_.beside > 0) return tr("saved, %n beside the record", nullptr, count(sync_.beside));
    if (writing_.who != Writing::Who::here) return tr("another device writes");
    if (sync_.waiting > 0) return tr("saved, %n waiting to send", nullptr, count(sync_.waiting));
    if (sync_.elsewhere > 0)
        return tr("saved, %n of other matches not sent", nullptr, count(sync_.elsewhere));
    switch (sync_.link) {
        case SyncStatus::Link::offline: return tr("saved, no network");
        case SyncStatus::Link::connecting: return tr("saved, connecting");
        case SyncStatus::Link::online: return tr("saved and sent");
    }
    return {};
}

TableSeat::SyncMark TableSeat::syncMark() const {
    if (sync_.refused > 0 || sync_.beside > 0 || fenced()) return NeedsPerson;
    const bool sent = sync_.all_sent() && sync_.link == SyncStatus::Link::online;
    return sent && !sync_.practice && writing_.who == Writing::Who::here ? AllSent : OnItsWay;
}

QString TableSeat::syncHelp() const {
    if (fenced())
        return tr("Another device writes this match now. Go on there; what is recorded here is kept "
                  "beside the record. To go on here instead: More, Ask to go on here.");
    // Without a network everything is as it should be, and the last entry is more worth reading.
    const bool answered = sync_.link == SyncStatus::Link::online;
    return syncMark() == NeedsPerson || answered ? qs(sync_.last_error) : QString();
}

QString TableSeat::wishWords() const {
    const QString why = qs(writing_.words);
    switch (writing_.wish) {
        case Writing::Wish::none: return {};
        case Writing::Wish::asking:
            return sync_.link == SyncStatus::Link::online
                       ? tr("Asking…")
                       : tr("It is asked as soon as the server is reached.");
        case Writing::Wish::asked: return tr("Asked. Waiting for the desk or the head official.");
        case Writing::Wish::declined:
            return tr("The desk or the head official said no. You may ask again.");
        case Writing::Wish::failed:
            return why.isEmpty() ? tr("It could not be asked. Try again, or tell the desk.")
                                 : tr("Not possible now: %1").arg(why);
    }
    return {};
}

bool TableSeat::wishOpen() const {
    return writing_.wish == Writing::Wish::asking || writing_.wish == Writing::Wish::asked;
}

QString TableSeat::scoreWords() const {
    const SetState& set = state().set;
    if (set.number == 0) return tr("Not begun yet");
    const int left = teamOn(true) == Team::A ? set.score.a : set.score.b;
    const int right = teamOn(true) == Team::A ? set.score.b : set.score.a;
    return tr("Set %1: %2 : %3").arg(set.number).arg(left).arg(right);
}

void TableSeat::askToGoOn() {
    if (!canAsk()) return;
    session_.ask_to_go_on();
    refreshSync();
}

void TableSeat::tell(const QString& words) {
    news_ = words;
    Q_EMIT changed();
    Q_EMIT said(words, false);
}

QString TableSeat::liberoWords(Team team) const {
    const TeamSet& set = state().set.team[team];
    QStringList words;
    for (const Jersey jersey : on_court(set))
        if (acts_as_libero(set, jersey))
            words << tr("libero %1 is on court for %2")
                         .arg(Wording::number(jersey), Wording::number(replaced_by(set, jersey)));
    if (!words.isEmpty()) return words.join(tr("; "));
    return set.liberos[0].worn() || set.liberos[1].worn() ? tr("no libero on court")
                                                          : tr("plays without a libero");
}

QVariantList TableSeat::roster(Team team) const {
    QVariantList list;
    const TeamRecord& record = state().team[team];
    const Six six = on_court(state().set.team[team]);
    for (std::size_t i = 0; i < record.count; ++i) {
        const Jersey jersey = record.players[i].jersey;
        if (!jersey.worn()) continue;
        QVariantMap player;
        player[QStringLiteral("number")] = jersey.number();
        player[QStringLiteral("name")] = names_[team][jersey.number()];
        player[QStringLiteral("onCourt")] = std::find(six.begin(), six.end(), jersey) != six.end();
        player[QStringLiteral("captain")] = jersey == record.captain;
        list << player;
    }
    return list;
}

SideFacts TableSeat::side(Team team) const {
    const MatchState& s = state();
    const TeamSet& set = s.set.team[team];
    const CourtView view{s, wording_, choice_};
    SideFacts facts;
    facts.team = team;
    facts.name = wording_.team(team);
    facts.letter = team == Team::A ? tr("A") : tr("B");
    facts.colour = qs(session_.sheet().colours[team]);
    facts.points = team == Team::A ? s.set.score.a : s.set.score.b;
    facts.sets = s.team[team].sets_won;
    facts.timeOuts = set.time_outs;
    facts.timeOutLimit = session_.rules().time_outs;
    facts.substitutions = set.substitutions;
    facts.substitutionLimit = session_.rules().substitutions;
    facts.serving = s.set.serving == team && s.set.number > 0;
    facts.checked = set.checked != 0;
    facts.awaitingSix = awaiting_six_[team];
    facts.liberoWords = liberoWords(team);
    facts.sixWords = Wording::six(on_court(set));
    // Ticks have done their work with the check: in play they would hide what else a tile says.
    facts.places = view.places(team, set.checked != 0 ? 0U : ticked_[team]);
    facts.liberos = view.liberos(team);
    facts.roster = roster(team);
    for (const SetResult& result : s.results)
        if (result.played != 0)
            facts.setScores << QString::number(team == Team::A ? result.score.a : result.score.b);
    return facts;
}

void TableSeat::refresh() {
    prompt_ = next_step(session_.rules(), state());
    standing_ = session_.standing();
    keepLineUpDraft();
    left_.show(side(teamOn(true)));
    right_.show(side(teamOn(false)));
    refreshSync();
    Q_EMIT changed();
}

void TableSeat::refreshSync() {
    const SyncStatus now = session_.sync_status();
    const Writing writing = session_.writing();
    const bool other_writer = writing.who != writing_.who;
    const bool same = now == sync_ && writing == writing_;
    sync_ = now;
    writing_ = writing;
    if (!same) Q_EMIT syncChanged();
    // The page is another one.
    if (other_writer) Q_EMIT changed();
}

void TableSeat::keepLineUpDraft() {
    if (page() != LineUpPage) return;
    const Team team = correcting_ ? *correcting_ : prompt_.team;
    const std::pair<int, Team> wanted{state().set.number, team};
    if (draft_for_ == wanted) return;
    draft_for_ = wanted;
    line_up_.start(session_.rules(), state(), team, wording_, names_);
}

// ---- recording --------------------------------------------------------------------------------------

bool TableSeat::perform(const std::vector<Fact>& facts, const QString& text, Saying saying) {
    Act act;
    bool needs_look = false;
    bool served = false;
    problem_.clear();
    news_.clear();
    const std::string words = text.left(longest_text).toStdString();
    for (const Fact& fact : facts) {
        const RecordResult result = session_.record(fact, words);
        if (result.error) {
            problem_ = qs(*result.error);
            break;
        }
        ++act.facts;
        act.words = wording_.fact(fact);
        served = served || std::holds_alternative<Serve>(fact);
        needs_look = needs_look || std::any_of(result.verdicts.begin(), result.verdicts.end(),
                                               raises);
    }
    if (act.facts > 0) {
        if (acts_.size() == most_acts) acts_.erase(acts_.begin());
        acts_.push_back(act);
    }
    choice_ = {};
    proposal_.reset();
    typing_for_.reset();
    typed_.clear();
    refresh();
    if (served) Q_EMIT clockStopped();
    if (act.facts > 0 && saying == Saying::aloud) Q_EMIT said(act.words, !needs_look);
    return problem_.isEmpty();
}

bool TableSeat::attempt(const Fact& fact) {
    for (const Verdict& verdict : judge(session_.rules(), state(), Entry{0, fact}).verdicts) {
        if (!raises(verdict)) continue;
        proposal_ = Proposal{{fact},
                             wording_.fact(fact),
                             wording_.why(verdict.reason)};
        refresh();
        return false;
    }
    return perform({fact});
}

void TableSeat::itHappened() {
    if (!proposal_) return;
    const std::vector<Fact> facts = proposal_->facts;
    const bool time_out = std::holds_alternative<TimeOut>(facts.front());
    perform(facts);
    if (time_out) Q_EMIT clockStarted(timeOutSeconds(), tr("Time-out"));
}

void TableSeat::undo() {
    const Act act = acts_.empty() ? Act{1, tr("the last entry")} : acts_.back();
    problem_.clear();
    for (std::size_t i = 0; i < act.facts; ++i) {
        const RecordResult result = session_.strike_last();
        if (result.error) {
            problem_ = qs(*result.error);
            break;
        }
    }
    if (!acts_.empty()) acts_.pop_back();
    choice_ = {};
    proposal_.reset();
    correcting_.reset();
    awaiting_six_ = {};
    refresh();
    if (problem_.isEmpty()) Q_EMIT struck(tr("Struck: %1").arg(act.words));
}

// ---- before the match and the set -------------------------------------------------------------------

void TableSeat::takeTeamLists() {
    std::vector<Fact> facts;
    for (const Team team : {Team::A, Team::B}) {
        if (state().team[team].count > 0) continue;
        Roster roster;
        roster.team = team;
        for (const MatchSheet::Player& player : session_.sheet().players[team]) {
            if (roster.count == most_players) break;
            roster.players[roster.count++] = player.number;
            if (player.captain) roster.captain = player.number;
        }
        if (roster.count > 0) facts.emplace_back(roster);
    }
    if (!facts.empty()) perform(facts);
}

void TableSeat::recordToss(bool aOnLeft, bool aServes) {
    perform({Toss{aServes ? Team::A : Team::B, aOnLeft ? Team::A : Team::B}});
}

void TableSeat::openLineUp(bool onLeft) {
    correcting_ = teamOn(onLeft);
    draft_for_.reset();
    refresh();
}

void TableSeat::closeLineUp() {
    correcting_.reset();
    refresh();
}

void TableSeat::handInLineUp() {
    const LineUp sheet = line_up_.sheet();
    line_up_.remember(sheet);
    correcting_.reset();
    ticked_[sheet.team] = 0;
    perform({sheet});
}

void TableSeat::settleBox(bool onLeft, int box, int number) {
    LiberoBox entry;
    entry.number = jersey_of(number);
    entry.mark = entry.number.worn() ? LiberoBox::Mark::number : LiberoBox::Mark::none;
    perform({LiberoBoxSettled{teamOn(onLeft), static_cast<std::uint8_t>(box), entry}});
}

QVariantMap TableSeat::openBox() const {
    const TeamSet& set = state().set.team[prompt_.team];
    for (std::size_t box = 0; box < libero_boxes; ++box) {
        if (set.boxes[box].mark != LiberoBox::Mark::blank) continue;
        return {{QStringLiteral("onLeft"), isLeft(prompt_.team)},
                {QStringLiteral("box"), static_cast<int>(box)},
                {QStringLiteral("team"), wording_.team(prompt_.team)}};
    }
    return {};
}

void TableSeat::startInterval() {
    if (perform({Interval{}})) Q_EMIT clockStarted(intervalSeconds(), tr("Interval"));
}

// ---- play --------------------------------------------------------------------------------------------

void TableSeat::touchPlace(bool onLeft, int position) {
    if (position < 0 || position >= static_cast<int>(players_on_court)) return;
    const Team team = teamOn(onLeft);
    const TeamSet& set = state().set.team[team];
    if (prompt_.kind == Prompt::Kind::check_missing && set.lineup_in != 0 && set.checked == 0) {
        constexpr unsigned all_six = 0b111111;
        ticked_[team] ^= 1U << position;
        if (ticked_[team] != all_six) {
            refresh();
            return;
        }
        ticked_[team] = 0;
        perform({LineUpChecked{team}});
        return;
    }
    touch(team, on_court(set)[static_cast<std::size_t>(position)]);
}

void TableSeat::touchLibero(bool onLeft, int box) {
    if (box < 0 || box >= static_cast<int>(libero_boxes)) return;
    const Team team = teamOn(onLeft);
    touch(team, beside(state().set.team[team], static_cast<std::size_t>(box)));
}

void TableSeat::touchNumber(bool onLeft, int number) { touch(teamOn(onLeft), jersey_of(number)); }

void TableSeat::touch(Team team, Jersey jersey) {
    if (!jersey.worn()) return;
    proposal_.reset();
    if (!choice_.made() || choice_.team != team) {
        choose(team, jersey);
        return;
    }
    if (choice_.jersey == jersey) {
        letGo();
        return;
    }
    const Option* option = choice_.with(jersey);
    if (option == nullptr) {
        choose(team, jersey);
    } else if (option->legal) {
        const Fact fact = option->fact;
        perform({fact});
    } else {
        proposal_ = Proposal{{option->fact},
                             wording_.fact(option->fact),
                             wording_.why(option->reason)};
        refresh();
    }
}

void TableSeat::choose(Team team, Jersey jersey) {
    const TeamSet& set = state().set.team[team];
    const bool about_libero = acts_as_libero(set, jersey) || beside(set, 0) == jersey ||
                              beside(set, 1) == jersey;
    choice_ = {};
    if (!about_libero) {
        beginSubstitution(isLeft(team), jersey.number());
        Q_EMIT substitutionAsked();
        return;
    }
    choice_.team = team;
    choice_.jersey = jersey;
    for (const Option& option : legal_actions(session_.rules(), state(), team).replacements) {
        const auto* replacement = std::get_if<LiberoReplacement>(&option.fact);
        if (replacement != nullptr && (replacement->in == jersey || replacement->out == jersey))
            choice_.options.push_back(option);
    }
    addOtherReturners();
    refresh();
}

void TableSeat::addOtherReturners() {
    const Six six = on_court(state().set.team[choice_.team]);
    const auto stands = [&](Jersey j) { return std::find(six.begin(), six.end(), j) != six.end(); };
    if (!stands(choice_.jersey)) return;
    const TeamRecord& record = state().team[choice_.team];
    for (std::size_t i = 0; i < record.count; ++i) {
        const Jersey in = record.players[i].jersey;
        if (stands(in) || choice_.with(in) != nullptr) continue;
        const Fact fact = LiberoReplacement{choice_.team, in, choice_.jersey};
        Option option{fact, true, {}};
        for (const Verdict& verdict : judge(session_.rules(), state(), Entry{0, fact}).verdicts)
            if (raises(verdict) && option.legal) option = {fact, false, verdict.reason};
        choice_.options.push_back(option);
    }
}

void TableSeat::letGo() {
    choice_ = {};
    proposal_.reset();
    typing_for_.reset();
    typed_.clear();
    refresh();
}

void TableSeat::serveHit() {
    awaiting_six_ = {};
    if (!inPlay()) perform({Serve{}});
}

void TableSeat::servedBy(bool onLeft, int number) {
    const Jersey server = jersey_of(number);
    if (server.worn()) perform({Serve{teamOn(onLeft), server}});
}

void TableSeat::rallyWon(bool onLeft) {
    if (!rallyOpen()) return;
    awaiting_six_ = {};
    std::vector<Fact> facts;
    if (!inPlay()) facts.emplace_back(Serve{});
    facts.emplace_back(RallyWon{teamOn(onLeft)});
    perform(facts);
}

void TableSeat::replayRally() { perform({Replay{}}); }

int TableSeat::doExpected() {
    switch (prompt_.kind) {
        case Prompt::Kind::set_to_start:
            perform({SetStarted{static_cast<std::uint8_t>(state().set.number + 1)}});
            break;
        case Prompt::Kind::check_missing: perform({LineUpChecked{prompt_.team}}); break;
        case Prompt::Kind::libero_must_leave:
            if (prompt_.players[0].worn())
                attempt(LiberoReplacement{prompt_.team, prompt_.players[0], prompt_.players[1]});
            break;
        case Prompt::Kind::courts_to_switch: changeCourts(); break;
        case Prompt::Kind::match_interrupted: perform({Resumed{}}); break;
        case Prompt::Kind::serve: serveHit(); break;
        case Prompt::Kind::libero_box_open: return BoxSheet;
        case Prompt::Kind::captain_to_name: return CaptainSheet;
        case Prompt::Kind::place_empty:
        case Prompt::Kind::barred_must_leave:
            beginSubstitution(isLeft(prompt_.team),
                              prompt_.players[0].worn() ? prompt_.players[0].number() : -1);
            return SubstitutionSheet;
        case Prompt::Kind::none:
        case Prompt::Kind::roster_missing:
        case Prompt::Kind::toss_missing:
        case Prompt::Kind::lineup_missing:
        case Prompt::Kind::decide_rally:
        case Prompt::Kind::match_finished: break;
    }
    return NoSheet;
}

bool TableSeat::callTimeOut(bool onLeft) {
    if (!attempt(TimeOut{teamOn(onLeft)})) return false;
    awaiting_six_ = {true, true};
    refresh();
    Q_EMIT clockStarted(timeOutSeconds(), tr("Time-out"));
    return true;
}

void TableSeat::confirmSameSix(bool onLeft) {
    awaiting_six_[teamOn(onLeft)] = false;
    refresh();
}

void TableSeat::beginSubstitution(bool onLeft, int out) {
    substitution_.start(session_.rules(), state(), teamOn(onLeft), onLeft, wording_,
                        jersey_of(out));
    letGo();
}

void TableSeat::recordSubstitution() {
    if (!substitution_.empty()) perform({substitution_.fact()});
}

QVariantList TableSeat::captainOptions(bool onLeft) const {
    QVariantList list;
    for (const Option& option :
         legal_actions(session_.rules(), state(), teamOn(onLeft)).captains) {
        const auto* named = std::get_if<GameCaptain>(&option.fact);
        if (named == nullptr) continue;
        QVariantMap entry;
        entry[QStringLiteral("number")] = named->player.number();
        entry[QStringLiteral("legal")] = option.legal;
        entry[QStringLiteral("whyNot")] = option.legal ? QString() : Wording::brief(option.reason);
        list << entry;
    }
    return list;
}

bool TableSeat::captainMissingOnLeft() const {
    return prompt_.kind == Prompt::Kind::captain_to_name ? isLeft(prompt_.team) : true;
}

void TableSeat::nameCaptain(bool onLeft, int number) {
    const Jersey player = jersey_of(number);
    if (player.worn()) attempt(GameCaptain{teamOn(onLeft), player});
}

void TableSeat::beginRedesignation(bool onLeft) {
    redesignation_.start(session_.rules(), state(), teamOn(onLeft), onLeft, wording_);
    letGo();
}

void TableSeat::recordRedesignation() {
    if (redesignation_.complete()) perform(redesignation_.facts(), redesignation_.remark());
}

void TableSeat::changeCourts() { attempt(CourtSwitch{}); }

void TableSeat::positionalFault(bool onLeft) { perform({PositionalFault{teamOn(onLeft), {}, {}}}); }

bool TableSeat::interrupted() const { return state().set.interrupted != 0; }

void TableSeat::interrupt() { perform({Interrupted{}}); }

void TableSeat::playAnew(bool wholeMatch) {
    perform({Resumed{wholeMatch ? Resumed::How::over_four_hours : Resumed::How::other_court}});
}

// ---- the rest of the sheet -----------------------------------------------------------------------------

void TableSeat::misconduct(bool onLeft, int number, int sanction) {
    perform({Misconduct{teamOn(onLeft), jersey_of(number),
                        static_cast<Sanction>(std::clamp(sanction, 0, 3))}});
}

void TableSeat::delay(bool onLeft, int sanction) {
    perform({Delay{teamOn(onLeft), static_cast<Sanction>(std::clamp(sanction, 0, 1))}});
}

void TableSeat::improperRequest(bool onLeft) { perform({ImproperRequest{teamOn(onLeft)}}); }

void TableSeat::injury(bool onLeft, int number) {
    perform({Injury{teamOn(onLeft), jersey_of(number)}});
}

void TableSeat::recovery(bool onLeft, int number) {
    if (perform({Recovery{teamOn(onLeft), jersey_of(number)}}))
        Q_EMIT clockStarted(recoverySeconds(), tr("Recovery time"));
}

void TableSeat::rule(int notice, bool accept) {
    if (notice < 0 || notice >= static_cast<int>(standing_.size())) return;
    const Verdict& verdict = standing_[static_cast<std::size_t>(notice)];
    perform({Ruling{accept ? Ruling::Decision::accept : Ruling::Decision::overrule, verdict.reason,
                    verdict.team}});
}

void TableSeat::remark(const QString& text) {
    if (!text.trimmed().isEmpty()) perform({Note{Note::Kind::remark}}, text.trimmed());
}

void TableSeat::protest(bool onLeft, const QString& text) {
    perform({Protest{teamOn(onLeft)}}, text.trimmed());
}

void TableSeat::correctScore(int leftPoints, int rightPoints) {
    const auto left = static_cast<std::uint8_t>(std::clamp(leftPoints, 0, 255));
    const auto right = static_cast<std::uint8_t>(std::clamp(rightPoints, 0, 255));
    const bool a_left = isLeft(Team::A);
    perform({ScoreCorrection{Score{a_left ? left : right, a_left ? right : left}}});
}

void TableSeat::incomplete(bool onLeft, bool wholeMatch) {
    perform({Incomplete{teamOn(onLeft),
                        wholeMatch ? Incomplete::Scope::match : Incomplete::Scope::set}});
}

void TableSeat::flipView() {
    flipped_ = !flipped_;
    letGo();
}

// ---- keyboard --------------------------------------------------------------------------------------------

void TableSeat::keyLibero() {
    typed_.clear();
    choice_ = {};
    proposal_.reset();
    if (!typing_for_)
        typing_for_ = teamOn(true);
    else if (*typing_for_ == teamOn(true))
        typing_for_ = teamOn(false);
    else
        typing_for_.reset();
    refresh();
}

void TableSeat::keyDigit(int digit) {
    typed_.digit(digit);
    if (typed_.full())
        keyEnter();
    else
        refresh();
}

void TableSeat::keyEnter() {
    const auto jersey = typed_.take();
    if (!jersey) return;
    if (!typing_for_) {
        // No team was named: the one in which the number is a libero or stands beside the court.
        const auto concerns = [&](Team team) {
            const TeamSet& set = state().set.team[team];
            return acts_as_libero(set, *jersey) || beside(set, 0) == *jersey ||
                   beside(set, 1) == *jersey;
        };
        typing_for_ = choice_.made()            ? choice_.team
                      : concerns(teamOn(true))  ? teamOn(true)
                      : concerns(teamOn(false)) ? teamOn(false)
                                                : teamOn(true);
    }
    touch(*typing_for_, *jersey);
}

void TableSeat::keyErase() {
    typed_.erase();
    refresh();
}

}  // namespace courthand::client
