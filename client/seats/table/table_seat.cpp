#include "table_seat.h"

#include <algorithm>

#include "act_clock.h"
#include "courthand/rules/judge.h"
#include "sheet_names.h"

namespace courthand::client {

namespace {

QString qs(const std::string& text) {
    return QString::fromStdString(text);
}

bool begins_service(const Fact& fact) {
    return std::holds_alternative<Serve>(fact);
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
    connect(&saving_, &SavingLine::changed, &board_, &NoticeBoard::changed);
    connect(&saving_, &SavingLine::writerChanged, this, [this] { show_again(); });
    show_again();
}

std::chrono::milliseconds TableSeat::steady() {
    return std::chrono::duration_cast<std::chrono::milliseconds>(
        std::chrono::steady_clock::now().time_since_epoch());
}

// ---- what is shown -----------------------------------------------------------------------------

Team TableSeat::team_on(bool on_left) const {
    const MatchState& s = state();
    const Team left = s.set.number > 0 || s.tossed == 0 ? s.set.left : s.toss_left;
    const Team shown_left = flipped_ ? opponent(left) : left;
    return on_left ? shown_left : opponent(shown_left);
}

TableSeat::Page TableSeat::page() const {
    if (saving_.elsewhere()) return ElsewherePage;
    if (correcting_) return LineUpPage;
    if (state().set.stage == Stage::match_over) return ResultPage;
    switch (next_.first().kind) {
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

QString TableSeat::matchName() const {
    const MatchSheet& sheet = session_.sheet();
    if (!sheet.name.empty()) return qs(sheet.name);
    return sheet.number > 0 ? tr("match %1").arg(sheet.number) : tr("match opened here");
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

bool TableSeat::interrupted() const {
    return state().set.interrupted != 0;
}

bool TableSeat::rallyOpen() const {
    // Before the first serve the sheets come first; then a rally can always be recorded.
    switch (next_.first().kind) {
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

QString TableSeat::resultWords() const {
    const MatchState& s = state();
    if (s.set.stage != Stage::match_over) return {};
    return tr("%1 wins %2 : %3")
        .arg(wording_.team(s.winner))
        .arg(s.team[s.winner].sets_won)
        .arg(s.team[opponent(s.winner)].sets_won);
}

QString TableSeat::scoreWords() const {
    const int set = state().set.number;
    return set == 0 ? tr("Not begun yet") : tr("Set %1: %2").arg(set).arg(score_of(state()));
}

QString TableSeat::score_of(const MatchState& state) const {
    const Score score = state.set.score;
    const bool a_left = is_left(Team::A);
    return tr("%1 : %2").arg(a_left ? score.a : score.b).arg(a_left ? score.b : score.a);
}

void TableSeat::show_again() {
    next_.look(keys_.keys(KeyMap::Libero));
    saving_.look();
    look_at_undo();
    keep_line_up_draft();
    team_lists_.set_recorded({state().team.a.count > 0, state().team.b.count > 0});
    const Display display{look_};
    for (const bool on_left : {true, false}) {
        const Team team = team_on(on_left);
        (on_left ? left_ : right_)
            .show(display.side(team, picking_.choice(), {ticked_[team], next_.awaits_six(team)}));
    }
    picking_.show();
    next_.show();
    desk_lists_.show();
    signing_.show();
    Q_EMIT changed();
    board_.show();
}

void TableSeat::look_at_undo() {
    const std::optional<Act> act = recorder_.next_undo();
    undo_words_ = act ? act->words : QString();
    board_.look(undo_words_);
    if (!act) return;
    const MatchState without = recorder_.state_without(*act);
    if (without.set.number == state().set.number && without.set.score != state().set.score)
        undo_words_ = tr("%1, %2 → %3").arg(act->words, score_of(state()), score_of(without));
}

void TableSeat::keep_line_up_draft() {
    if (page() != LineUpPage) return;
    const Team team = correcting_ ? *correcting_ : next_.first().team;
    const std::pair<int, Team> wanted{state().set.number, team};
    if (draft_for_ == wanted) {
        line_up_.look(state());
        return;
    }
    draft_for_ = wanted;
    line_up_.start(session_.rules(), state(), team, wording_, names_,
                   session_.sheet().players[team]);
}

void TableSeat::tell(const QString& words) {
    if (!board_.tell(words)) return;
    board_.show();
    Q_EMIT said(words, false);
}

void TableSeat::setNextMatch(const QString& words) {
    if (words == next_match_) return;
    next_match_ = words;
    Q_EMIT nextMatchChanged();
}

// ---- recording ---------------------------------------------------------------------------------

bool TableSeat::perform(const std::vector<Fact>& facts, const QString& text) {
    const Outcome outcome = recorder_.perform(facts, text);
    // The first of several may be in the record although a later one is not.
    const bool begun = !outcome.words.isEmpty() && !facts.empty();
    if (begun && std::holds_alternative<TimeOut>(facts.front())) next_.await_six();
    if (begun && begins_service(facts.front())) next_.six_are_back();
    const bool saved = shown(outcome);
    if (!begun) return saved;
    if (const auto clock = clock_of(facts.front(), session_.rules()))
        Q_EMIT clockStarted(clock->seconds, clock->words);
    if (begins_service(facts.front())) Q_EMIT clockStopped();
    return saved;
}

bool TableSeat::amend(EntryNumber target, const Fact& fact) {
    return shown(recorder_.amend(target, fact));
}

void TableSeat::leave_behind(bool saved) {
    if (const QString words = board_.seen(saved); !words.isEmpty()) Q_EMIT newsSeen(words);
    last_rally_.reset();
}

bool TableSeat::shown(const Outcome& outcome) {
    leave_behind(outcome.saved);
    // What was not saved is asked for again: what was chosen for it stays.
    if (outcome.saved) picking_.drop();
    show_again();
    if (!outcome.words.isEmpty()) Q_EMIT said(outcome.words, !outcome.needs_look);
    return outcome.saved;
}

void TableSeat::ask(Proposal proposal) {
    picking_.ask(std::move(proposal));
    show_again();
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

void TableSeat::undo() {
    // A sheet that is being written: its last number first.
    if (page() == LineUpPage && line_up_.take_back()) return;
    const std::optional<Act> act = recorder_.next_undo();
    if (!act) {
        say(tr("There is nothing to undo."), false);
        return;
    }
    const QString words = undo_words_;
    const bool had_clock =
        std::any_of(act->entries.begin(), act->entries.end(), [this](const Written& entry) {
            const Fact* fact = std::get_if<Fact>(&entry.record);
            return fact != nullptr && clock_of(*fact, session_.rules());
        });
    const bool done = recorder_.undo().saved;
    leave_behind(done);
    picking_.drop();
    correcting_.reset();
    next_.six_are_back();
    show_again();
    if (!done) return;
    if (had_clock) Q_EMIT clockStopped();
    Q_EMIT struck(tr("Taken back: %1").arg(words));
}

// ---- before the match and the set --------------------------------------------------------------

void TableSeat::recordTeamLists() {
    if (team_lists_.complete() && perform(team_lists_.facts())) team_lists_.clear();
}

void TableSeat::recordToss(bool aOnLeft, bool aServes) {
    perform({Toss{aServes ? Team::A : Team::B, aOnLeft ? Team::A : Team::B}});
}

void TableSeat::openLineUp(bool onLeft) {
    correcting_ = team_on(onLeft);
    draft_for_.reset();
    show_again();
}

void TableSeat::closeLineUp() {
    correcting_.reset();
    show_again();
}

void TableSeat::handInLineUp() {
    const LineUp sheet = line_up_.sheet();
    const std::optional<Team> correcting = std::exchange(correcting_, std::nullopt);
    if (perform({sheet})) {
        line_up_.remember(sheet);
        ticked_[sheet.team] = 0;
    } else {
        correcting_ = correcting;
        show_again();
    }
}

void TableSeat::startInterval() {
    perform({Interval{}});
}

// ---- play --------------------------------------------------------------------------------------

void TableSeat::touchPlace(bool onLeft, int position) {
    if (position < 0 || position >= static_cast<int>(players_on_court)) return;
    const Team team = team_on(onLeft);
    const TeamSet& set = state().set.team[team];
    const bool checking = next_.first().kind == Prompt::Kind::check_missing;
    if (!checking || set.lineup_in == 0 || set.checked != 0) {
        picking_.touch(team, on_court(set)[static_cast<std::size_t>(position)]);
        return;
    }
    constexpr unsigned all_six = 0b111111;
    ticked_[team] ^= 1U << position;
    if (ticked_[team] != all_six) {
        show_again();
        return;
    }
    ticked_[team] = 0;
    perform({LineUpChecked{team}});
}

void TableSeat::touchLibero(bool onLeft, int box) {
    if (box < 0 || box >= static_cast<int>(libero_boxes)) return;
    const Team team = team_on(onLeft);
    picking_.touch(team, beside(state().set.team[team], static_cast<std::size_t>(box)));
}

void TableSeat::serveHit() {
    if (state().set.stage != Stage::in_play) perform({Serve{}});
}

void TableSeat::rallyWon(bool onLeft) {
    if (!rallyOpen()) return;
    if (last_rally_ && last_rally_->on_left == onLeft && clock_() - last_rally_->at < rally_rest) {
        say(tr("Touched twice: counted once"), false);
        return;
    }
    next_.six_are_back();
    std::vector<Fact> facts;
    if (state().set.stage != Stage::in_play) facts.emplace_back(Serve{});
    facts.emplace_back(RallyWon{team_on(onLeft)});
    // The rest begins when the rally is on the screen: a second tap may have waited for the disk.
    if (perform(facts)) last_rally_ = RallyTouch{onLeft, clock_()};
}

void TableSeat::flipView() {
    flipped_ = !flipped_;
    picking_.letGo();
}

// ---- sheets ------------------------------------------------------------------------------------

void TableSeat::begin_substitution(Team team, Jersey out) {
    substitution_.start(session_.rules(), state(), team, is_left(team), wording_, out);
    picking_.letGo();
}

void TableSeat::beginSubstitution(bool onLeft, int out) {
    begin_substitution(team_on(onLeft), jersey_of(out));
}

void TableSeat::want_substitution(Team team, Jersey out) {
    begin_substitution(team, out);
    want_sheet(QLatin1String(sheets::substitution));
}

void TableSeat::recordSubstitution() {
    if (!substitution_.empty()) perform({substitution_.fact()});
}

void TableSeat::beginRedesignation(bool onLeft) {
    redesignation_.start(session_.rules(), state(), team_on(onLeft), onLeft, wording_);
    picking_.letGo();
}

void TableSeat::recordRedesignation() {
    if (redesignation_.complete()) perform(redesignation_.facts(), redesignation_.remark());
}

// ---- keyboard ----------------------------------------------------------------------------------

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
            picking_.digit(digit);
            return;
    }
}

void TableSeat::keyExpected() {
    if (page() == LineUpPage) {
        if (!line_up_.typed().isEmpty())
            line_up_.acceptTyped();
        else if (line_up_.complete())
            handInLineUp();
        return;
    }
    if (page() == RosterPage) return team_lists_.acceptTyped();
    if (picking_.typing()) return picking_.enter();
    // A question is open; "expected" answers neither way.
    if (!picking_.choosing() && !picking_.proposing()) next_.doIt();
}

void TableSeat::keyErase() {
    if (page() == LineUpPage) return line_up_.eraseTyped();
    if (page() == RosterPage) return team_lists_.eraseTyped();
    picking_.erase();
}

bool TableSeat::keyNone() {
    if (page() != LineUpPage || line_up_.boxesSettled()) return false;
    line_up_.noneInOpenBox();
    return true;
}

}  // namespace courthand::client
