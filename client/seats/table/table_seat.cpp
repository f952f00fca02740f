#include "table_seat.h"

#include <QStringList>
#include <algorithm>

namespace courthand::client {

namespace {

/// How often the line "saved, waiting to send" is looked at, in milliseconds.
constexpr int sync_look_ms = 500;
QString qs(const std::string& text) {
    return QString::fromStdString(text);
}

}  // namespace

TableSeat::TableSeat(MatchSession& session, Clock clock, QObject* parent)
    : QObject{parent}, session_{session}, clock_{std::move(clock)} {
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

std::chrono::milliseconds TableSeat::steady() {
    return std::chrono::duration_cast<std::chrono::milliseconds>(
        std::chrono::steady_clock::now().time_since_epoch());
}

// ---- what is shown -----------------------------------------------------------------------------

Team TableSeat::teamOn(bool onLeft) const {
    const MatchState& s = state();
    const Team left = s.set.number > 0 || s.tossed == 0 ? s.set.left : s.toss_left;
    const Team shown_left = flipped_ ? opponent(left) : left;
    return onLeft ? shown_left : opponent(shown_left);
}

bool TableSeat::isLeft(Team team) const {
    return teamOn(true) == team;
}

TableSeat::Page TableSeat::page() const {
    if (saving_.writing.who == Writing::Who::elsewhere) return ElsewherePage;
    if (correcting_) return LineUpPage;
    if (state().set.stage == Stage::match_over) return ResultPage;
    switch (prompt_.kind) {
        case Prompt::Kind::roster_missing:
            return RosterPage;
        case Prompt::Kind::toss_missing:
            return TossPage;
        case Prompt::Kind::set_to_start:
            return StartPage;
        case Prompt::Kind::lineup_missing:
            return LineUpPage;
        case Prompt::Kind::match_finished:
            return ResultPage;
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
        case Prompt::Kind::decide_rally:
            break;
    }
    return state().set.stage == Stage::set_over ? StartPage : CourtPage;
}

QString TableSeat::court() const {
    return QString::number(session_.sheet().court);
}
QString TableSeat::matchNumber() const {
    return QString::number(session_.sheet().number);
}
QString TableSeat::profile() const {
    return qs(session_.sheet().profile);
}
int TableSeat::setNumber() const {
    return state().set.number;
}
bool TableSeat::deciding() const {
    return state().format.deciding(state().set.number);
}
bool TableSeat::inPlay() const {
    return state().set.stage == Stage::in_play;
}

bool TableSeat::rallyOpen() const {
    // Before the first serve the sheets come first; then a rally can always be recorded.
    switch (prompt_.kind) {
        case Prompt::Kind::lineup_missing:
        case Prompt::Kind::libero_box_open:
        case Prompt::Kind::check_missing:
            return state().set.stage != Stage::before_set;
        case Prompt::Kind::none:
        case Prompt::Kind::roster_missing:
        case Prompt::Kind::toss_missing:
        case Prompt::Kind::set_to_start:
        case Prompt::Kind::match_interrupted:
        case Prompt::Kind::match_finished:
            return false;
        case Prompt::Kind::libero_must_leave:
        case Prompt::Kind::place_empty:
        case Prompt::Kind::barred_must_leave:
        case Prompt::Kind::captain_to_name:
        case Prompt::Kind::courts_to_switch:
        case Prompt::Kind::serve:
        case Prompt::Kind::decide_rally:
            break;
    }
    return true;
}

bool TableSeat::lineUpOnLeft() const {
    return isLeft(line_up_.team());
}

bool TableSeat::writesNumbers() const {
    return page() == LineUpPage || page() == RosterPage;
}

QVariantList TableSeat::notices() const {
    return as_list(display().notices(standing_));
}

QString TableSeat::choiceWords() const {
    return display().choice_words(pick_.choice());
}

QVariantList TableSeat::otherNumbers() const {
    return as_list(display().other_numbers(pick_.choice()));
}

QVariantList TableSeat::captainOptions(bool onLeft) const {
    return as_list(display().captains(teamOn(onLeft)));
}

QString TableSeat::nextLead() const {
    if (choosing()) return tr("TOUCH");
    return pick_.typing_for() || pick_.asks_for_team() ? tr("TYPE") : tr("NEXT");
}

QString TableSeat::nextLine() const {
    if (proposal_) return proposal_->words;
    if (choosing()) return choiceWords();
    const QString number = typed();
    if (pick_.asks_for_team()) {
        if (pick_.typing_for()) return tr("%1 of %2? Return").arg(number, typingFor());
        const QString key = keys_.keys(KeyMap::Libero);
        return tr("%1 is in both teams: %2 for the left team, again for the right, then Return")
            .arg(number, key);
    }
    if (pick_.typing_for()) return tr("%1, number: %2_").arg(typingFor(), number);
    if (!number.isEmpty()) return tr("number %1_").arg(number);
    return nextWords();
}

QString TableSeat::nextWords() const {
    for (const Team team : {Team::A, Team::B})
        if (awaiting_six_[team])
            return tr("After the time-out: are the same six of %1 back?").arg(wording_.team(team));
    return wording_.prompt(prompt_);
}

QString TableSeat::resultWords() const {
    const MatchState& s = state();
    if (s.set.stage != Stage::match_over) return {};
    return tr("%1 wins %2 : %3")
        .arg(wording_.team(s.winner))
        .arg(s.team[s.winner].sets_won)
        .arg(s.team[opponent(s.winner)].sets_won);
}

int TableSeat::worstNotice() const {
    const auto open = std::find_if(standing_.begin(), standing_.end(), [](const Verdict& verdict) {
        return verdict.phase == Phase::open;
    });
    if (open != standing_.end()) return static_cast<int>(open - standing_.begin());
    return standing_.empty() ? -1 : 0;
}

QString TableSeat::noticeLine() const {
    if (!problem().isEmpty()) return problem();
    if (const int worst = worstNotice(); worst >= 0)
        return wording_.verdict(standing_[static_cast<std::size_t>(worst)]);
    for (const QString& words : {news(), syncHelp(), listOffer()})
        if (!words.isEmpty()) return words;
    return last_words_.isEmpty() ? QString() : tr("Last entry: %1").arg(last_words_);
}

QString TableSeat::noticeDetail() const {
    const int worst = worstNotice();
    if (worst < 0) return noticeQuiet() ? saving_.error() : QString();
    const Verdict& verdict = standing_[static_cast<std::size_t>(worst)];
    if (!problem().isEmpty()) return wording_.verdict(verdict);
    if (!news_.isEmpty()) return news();
    const QString rule = wording_.rule(verdict.reason);
    const QString remedy = wording_.remedy(verdict);
    return rule.isEmpty() ? remedy : tr("%1 (%2)").arg(remedy, rule);
}

bool TableSeat::noticeQuiet() const {
    return problem().isEmpty() && standing_.empty() && news_.isEmpty() && syncHelp().isEmpty() &&
           listOffer().isEmpty();
}

QString TableSeat::help() const {
    for (const QString& words : {problem(), news(), syncHelp(), saving_.error(), listOffer()})
        if (!words.isEmpty()) return words;
    return {};
}

QString TableSeat::proposalWords() const {
    return proposal_ ? proposal_->words : QString();
}
QString TableSeat::proposalMark() const {
    return proposal_ ? proposal_->mark : QString();
}
QString TableSeat::proposalWhy() const {
    return proposal_ ? proposal_->why : QString();
}

QString TableSeat::typingFor() const {
    return pick_.typing_for() ? wording_.team(*pick_.typing_for()) : QString();
}

// ---- team lists --------------------------------------------------------------------------------

bool TableSeat::deskHasList() const {
    const auto waits = [this](Team team) {
        return state().team[team].count == 0 && !session_.sheet().players[team].empty();
    };
    return waits(Team::A) || waits(Team::B);
}

bool TableSeat::deskHasLists() const {
    const auto settled = [this](Team team) {
        return state().team[team].count > 0 || !session_.sheet().players[team].empty();
    };
    return deskHasList() && settled(Team::A) && settled(Team::B);
}

std::optional<Team> TableSeat::offered() const {
    for (const Team team : {Team::A, Team::B}) {
        const auto& players = session_.sheet().players[team];
        if (players.empty() || state().team[team].count == 0) continue;
        const Roster desk = roster_of(team, players);
        if (desk != declined_[team] && difference(desk, state().team[team]).any()) return team;
    }
    return std::nullopt;
}

QString TableSeat::listOffer() const {
    const auto team = offered();
    return team ? tr("The desk has another team list of %1").arg(wording_.team(*team)) : QString();
}

QString TableSeat::numbers(const std::vector<Jersey>& jerseys) const {
    QStringList words;
    for (const Jersey jersey : jerseys) words << Wording::number(jersey);
    return words.isEmpty() ? tr("none") : words.join(tr(", "));
}

QString TableSeat::listOnlyDesk() const {
    const auto team = offered();
    if (!team) return {};
    return numbers(
        difference(roster_of(*team, session_.sheet().players[*team]), state().team[*team])
            .only_desk);
}

QString TableSeat::listOnlyRecord() const {
    const auto team = offered();
    if (!team) return {};
    return numbers(
        difference(roster_of(*team, session_.sheet().players[*team]), state().team[*team])
            .only_record);
}

QString TableSeat::listCaptain() const {
    const auto team = offered();
    if (!team) return {};
    const QString captain =
        Wording::number(roster_of(*team, session_.sheet().players[*team]).captain);
    return captain.isEmpty() ? tr("not named") : captain;
}

bool TableSeat::listForLeft() const {
    const auto team = offered();
    return team && isLeft(*team);
}

// ---- saving and sending ------------------------------------------------------------------------

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
    if (!news_.add(words, !problem().isEmpty())) return;
    Q_EMIT changed();
    Q_EMIT noticed();
    Q_EMIT said(words, false);
}

void TableSeat::refresh() {
    prompt_ = next_step(session_.rules(), state());
    standing_ = session_.standing();
    news_.drawn(!problem().isEmpty());
    lookAtUndo();
    keepLineUpDraft();
    team_lists_.set_recorded({state().team.a.count > 0, state().team.b.count > 0});
    const Display display = this->display();
    for (const bool on_left : {true, false}) {
        const Team team = teamOn(on_left);
        (on_left ? left_ : right_)
            .show(display.side(team, pick_.choice(), {ticked_[team], awaiting_six_[team]}));
    }
    refreshSync();
    Q_EMIT changed();
    Q_EMIT noticed();
}

QString TableSeat::scoreOf(const MatchState& state) const {
    const Score score = state.set.score;
    const bool a_left = isLeft(Team::A);
    return tr("%1 : %2").arg(a_left ? score.a : score.b).arg(a_left ? score.b : score.a);
}

void TableSeat::lookAtUndo() {
    const std::optional<Act> act = recorder_.next_undo();
    last_words_ = undo_words_ = act ? act->words : QString();
    if (!act) return;
    const MatchState without = recorder_.state_without(*act);
    if (without.set.number == state().set.number && without.set.score != state().set.score)
        undo_words_ = tr("%1, %2 → %3").arg(act->words, scoreOf(state()), scoreOf(without));
}

void TableSeat::refreshSync() {
    const Saving now{session_.sync_status(), session_.writing()};
    const bool other_writer = now.writing.who != saving_.writing.who;
    const bool same = now == saving_;
    saving_ = now;
    if (!same) {
        Q_EMIT syncChanged();
        Q_EMIT noticed();
    }
    // The page is another one.
    if (other_writer) Q_EMIT changed();
}

void TableSeat::keepLineUpDraft() {
    if (page() != LineUpPage) return;
    const Team team = correcting_ ? *correcting_ : prompt_.team;
    const std::pair<int, Team> wanted{state().set.number, team};
    if (draft_for_ == wanted) {
        line_up_.look(state());
        return;
    }
    draft_for_ = wanted;
    line_up_.start(session_.rules(), state(), team, wording_, names_);
}

// ---- recording ---------------------------------------------------------------------------------

bool TableSeat::perform(const std::vector<Fact>& facts, const QString& text) {
    const Outcome outcome = recorder_.perform(facts, text);
    const bool served =
        !outcome.words.isEmpty() && !facts.empty() && std::holds_alternative<Serve>(facts.front());
    const bool saved = shown(outcome);
    if (served) Q_EMIT clockStopped();
    return saved;
}

bool TableSeat::shown(const Outcome& outcome) {
    if (const QString words = news_.seen(outcome.saved); !words.isEmpty()) Q_EMIT newsSeen(words);
    last_rally_.reset();
    // What was not saved is asked for again: what was chosen for it stays.
    if (outcome.saved) {
        pick_.let_go();
        proposal_.reset();
    }
    refresh();
    if (!outcome.words.isEmpty()) Q_EMIT said(outcome.words, !outcome.needs_look);
    return outcome.saved;
}

void TableSeat::ask(Proposal proposal) {
    proposal_ = std::move(proposal);
    refresh();
}

void TableSeat::propose(const Option& option) {
    ask({{option.fact}, wording_.fact(option.fact), tr("Not legal"), wording_.why(option.reason)});
}

bool TableSeat::attempt(const Fact& fact) {
    const Option option = option_for(session_.rules(), state(), fact);
    if (option.legal) return perform({fact});
    propose(option);
    return false;
}

void TableSeat::itHappened() {
    if (!proposal_) return;
    const std::vector<Fact> facts = proposal_->facts;
    if (perform(facts) && std::holds_alternative<TimeOut>(facts.front())) {
        awaiting_six_ = {true, true};
        refresh();
        Q_EMIT clockStarted(timeOutSeconds(), tr("Time-out"));
    }
}

void TableSeat::undo() {
    // A sheet that is being written: its last number first.
    if (page() == LineUpPage && line_up_.take_back()) return;
    const std::optional<Act> act = recorder_.next_undo();
    if (!act) {
        Q_EMIT said(tr("There is nothing to undo."), false);
        return;
    }
    const QString words = undo_words_;
    const bool had_clock =
        std::any_of(act->entries.begin(), act->entries.end(), [](const Written& entry) {
            const Fact* fact = std::get_if<Fact>(&entry.record);
            return fact != nullptr && (std::holds_alternative<TimeOut>(*fact) ||
                                       std::holds_alternative<Interval>(*fact) ||
                                       std::holds_alternative<Recovery>(*fact));
        });
    const bool done = recorder_.undo().saved;
    last_rally_.reset();
    if (const QString seen = news_.seen(done); !seen.isEmpty()) Q_EMIT newsSeen(seen);
    pick_.let_go();
    proposal_.reset();
    correcting_.reset();
    awaiting_six_ = {};
    refresh();
    if (!done) return;
    if (had_clock) Q_EMIT clockStopped();
    Q_EMIT struck(tr("Taken back: %1").arg(words));
}

// ---- before the match and the set --------------------------------------------------------------

void TableSeat::takeTeamLists() {
    std::vector<Fact> facts;
    for (const Team team : {Team::A, Team::B}) {
        const auto& players = session_.sheet().players[team];
        if (state().team[team].count == 0 && !players.empty())
            facts.emplace_back(roster_of(team, players));
    }
    if (!facts.empty()) perform(facts);
}

void TableSeat::writeListOf(bool onLeft) {
    team_lists_.write_for(teamOn(onLeft));
}

void TableSeat::recordTeamLists() {
    if (team_lists_.complete() && perform(team_lists_.facts())) team_lists_.clear();
}

void TableSeat::takeDeskList() {
    const auto team = offered();
    if (!team) return;
    const Roster desk = roster_of(*team, session_.sheet().players[*team]);
    // Before the first set a list follows a list; later it takes the place of the first one.
    if (state().set.number == 0) {
        perform({desk});
        return;
    }
    for (const Entry& entry : recorder_.entries()) {
        const auto* written = std::get_if<Roster>(&entry.fact);
        if (written == nullptr || written->team != *team) continue;
        const auto* amended = std::get_if<Amend>(&session_.written()[entry.number - 1]);
        shown(recorder_.amend(amended != nullptr ? amended->target : entry.number, desk));
        return;
    }
}

void TableSeat::leaveDeskList() {
    const auto team = offered();
    if (!team) return;
    declined_[*team] = roster_of(*team, session_.sheet().players[*team]);
    refresh();
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
    const std::optional<Team> correcting = std::exchange(correcting_, std::nullopt);
    if (perform({sheet})) {
        line_up_.remember(sheet);
        ticked_[sheet.team] = 0;
    } else {
        correcting_ = correcting;
        refresh();
    }
}

void TableSeat::settleBox(bool onLeft, int box, int number) {
    LiberoBox entry;
    entry.number = jersey_of(number);
    entry.mark = entry.number.worn() ? LiberoBox::Mark::number : LiberoBox::Mark::none;
    perform({LiberoBoxSettled{teamOn(onLeft), static_cast<std::uint8_t>(box), entry}});
}

OpenBox TableSeat::openBox() const {
    const TeamSet& set = state().set.team[prompt_.team];
    for (std::size_t box = 0; box < libero_boxes; ++box)
        if (set.boxes[box].mark == LiberoBox::Mark::blank)
            return {isLeft(prompt_.team), static_cast<int>(box), wording_.team(prompt_.team)};
    return {};
}

void TableSeat::startInterval() {
    if (perform({Interval{}})) Q_EMIT clockStarted(intervalSeconds(), tr("Interval"));
}

// ---- play --------------------------------------------------------------------------------------

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

void TableSeat::touchNumber(bool onLeft, int number) {
    touch(teamOn(onLeft), jersey_of(number));
}

void TableSeat::touch(Team team, Jersey jersey) {
    proposal_.reset();
    follow(pick_.touch(session_.rules(), state(), team, jersey));
}

void TableSeat::follow(const CourtPick::Result& result) {
    if (const auto* record = std::get_if<CourtPick::Record>(&result)) {
        perform({record->fact});
    } else if (const auto* illegal = std::get_if<CourtPick::Propose>(&result)) {
        propose(illegal->option);
    } else if (const auto* request = std::get_if<CourtPick::Substitute>(&result)) {
        beginSubstitution(isLeft(request->team), request->out.number());
        Q_EMIT substitutionAsked();
    } else if (const auto* unknown = std::get_if<CourtPick::Unknown>(&result)) {
        refresh();
        const QString number = Wording::number(unknown->jersey);
        Q_EMIT said(
            unknown->team
                ? tr("%1 is not in the team list of %2").arg(number, wording_.team(*unknown->team))
                : tr("%1 is in neither team list").arg(number),
            false);
    } else {
        refresh();
    }
}

void TableSeat::letGo() {
    pick_.let_go();
    proposal_.reset();
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
    if (last_rally_ && last_rally_->on_left == onLeft && clock_() - last_rally_->at < rally_rest) {
        Q_EMIT said(tr("Touched twice: counted once"), false);
        return;
    }
    awaiting_six_ = {};
    std::vector<Fact> facts;
    if (!inPlay()) facts.emplace_back(Serve{});
    facts.emplace_back(RallyWon{teamOn(onLeft)});
    // The rest begins when the rally is on the screen: a second tap may have waited for the disk.
    if (perform(facts)) last_rally_ = RallyTouch{onLeft, clock_()};
}

int TableSeat::doExpected() {
    switch (prompt_.kind) {
        case Prompt::Kind::set_to_start:
            perform({SetStarted{static_cast<std::uint8_t>(state().set.number + 1)}});
            break;
        case Prompt::Kind::check_missing:
            perform({LineUpChecked{prompt_.team}});
            break;
        case Prompt::Kind::libero_must_leave:
            if (prompt_.players[0].worn())
                attempt(LiberoReplacement{prompt_.team, prompt_.players[0], prompt_.players[1]});
            break;
        case Prompt::Kind::courts_to_switch:
            attempt(CourtSwitch{});
            break;
        case Prompt::Kind::match_interrupted:
            perform({Resumed{}});
            break;
        case Prompt::Kind::serve:
            serveHit();
            break;
        case Prompt::Kind::libero_box_open:
            return BoxSheet;
        case Prompt::Kind::captain_to_name:
            return CaptainSheet;
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
        case Prompt::Kind::match_finished:
            break;
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

bool TableSeat::captainMissingOnLeft() const {
    return prompt_.kind == Prompt::Kind::captain_to_name ? isLeft(prompt_.team) : true;
}

void TableSeat::beginRedesignation(bool onLeft) {
    redesignation_.start(session_.rules(), state(), teamOn(onLeft), onLeft, wording_);
    letGo();
}

void TableSeat::recordRedesignation() {
    if (redesignation_.complete()) perform(redesignation_.facts(), redesignation_.remark());
}

bool TableSeat::interrupted() const {
    return state().set.interrupted != 0;
}

// ---- the rest of the sheet ---------------------------------------------------------------------

int TableSeat::noticeAt(int entry, int reason, int team) const {
    const auto at = std::find_if(standing_.begin(), standing_.end(), [&](const Verdict& verdict) {
        return static_cast<int>(verdict.entry) == entry &&
               static_cast<int>(verdict.reason) == reason && static_cast<int>(verdict.team) == team;
    });
    return at == standing_.end() ? -1 : static_cast<int>(at - standing_.begin());
}

bool TableSeat::rule(int entry, int reason, int team, bool accept) {
    // A ruling of the head official may have come in this very moment.
    standing_ = session_.standing();
    const int at = noticeAt(entry, reason, team);
    if (at < 0) {
        Q_EMIT said(tr("That fault no longer stands: nothing was recorded"), false);
        refresh();
        return false;
    }
    const Verdict& verdict = standing_[static_cast<std::size_t>(at)];
    if (display().notices(standing_)[static_cast<std::size_t>(at)].behind) {
        Q_EMIT said(tr("An older fault of the same kind is ruled first"), false);
        return false;
    }
    return perform({Ruling{accept ? Ruling::Decision::accept : Ruling::Decision::overrule,
                           verdict.reason, verdict.team}});
}

void TableSeat::flipView() {
    flipped_ = !flipped_;
    letGo();
}

// ---- keyboard ----------------------------------------------------------------------------------

void TableSeat::keyLibero() {
    proposal_.reset();
    pick_.next_team(teamOn(true));
    refresh();
}

void TableSeat::keyDigit(int digit) {
    switch (page()) {
        case LineUpPage:
            line_up_.typeDigit(digit);
            return;
        case RosterPage:
            team_lists_.typeDigit(digit);
            return;
        case TossPage:
        case StartPage:
        case ResultPage:
        case ElsewherePage:
            return;
        case CourtPage:
            break;
    }
    if (pick_.digit(digit))
        keyExpected();
    else
        refresh();
}

int TableSeat::keyExpected() {
    if (page() == LineUpPage) {
        if (!line_up_.typed().isEmpty())
            line_up_.acceptTyped();
        else if (line_up_.complete())
            handInLineUp();
        return NoSheet;
    }
    if (page() == RosterPage) {
        team_lists_.acceptTyped();
        return NoSheet;
    }
    if (!typed().isEmpty()) {
        proposal_.reset();
        follow(pick_.enter(session_.rules(), state()));
        return NoSheet;
    }
    // A question is open; "expected" answers neither way.
    if (choosing() || proposing()) return NoSheet;
    return doExpected();
}

void TableSeat::keyErase() {
    if (page() == LineUpPage) return line_up_.eraseTyped();
    if (page() == RosterPage) return team_lists_.eraseTyped();
    pick_.erase();
    refresh();
}

bool TableSeat::keyNone() {
    if (page() != LineUpPage || line_up_.boxesSettled()) return false;
    line_up_.noneInOpenBox();
    return true;
}

}  // namespace courthand::client
