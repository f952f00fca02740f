#include "table_hand.h"

#include <gtest/gtest.h>

#include <QGuiApplication>
#include <QTest>
#include <algorithm>
#include <array>
#include <utility>

#include "courthand/rules/judge.h"
#include "table_seat.h"

namespace courthand::client::test {

namespace {

constexpr int patience_ms = 5000;
/// In the order of the sheet on the screen.
constexpr std::array causes{Cause::injury, Cause::illness, Cause::declared, Cause::expulsion,
                            Cause::disqualification};
/// Where the list of seldom acts has "Another player served".
const QString another_server = QStringLiteral("more-server");
/// One rally in so many is first written for the wrong team and taken back.
constexpr unsigned slip_every = 60;

QString number(Jersey jersey) {
    return QString::number(jersey.number());
}

}  // namespace

TableHand::TableHand(QQuickWindow& window, const MatchCourse& course)
    : window_{window}, hand_{window}, course_{course} {}

std::size_t TableHand::play(std::size_t index) {
    index_ = index;
    const Fact& fact = course_.steps()[index].fact;
    const auto once = [](bool done) { return done ? std::size_t{1} : std::size_t{0}; };
    // The session has opened the match; the officials are no entry of the table.
    if (std::holds_alternative<MatchOpened>(fact)) return 1;
    if (std::holds_alternative<Roster>(fact)) return press("takeLists") ? 2 : 0;
    if (const auto* f = std::get_if<Note>(&fact))
        return f->kind == Note::Kind::officials ? 1 : once(remark(course_.steps()[index].text));
    if (const auto* f = std::get_if<Toss>(&fact)) return once(toss(*f));
    if (std::holds_alternative<Interval>(fact)) return once(press("interval"));
    if (std::holds_alternative<SetStarted>(fact))
        return once(next_way() == Way::keys ? key(Qt::Key_Return) : press("beginSet"));
    if (const auto* f = std::get_if<LineUp>(&fact)) return once(line_up(*f));
    if (const auto* f = std::get_if<LineUpChecked>(&fact)) return once(checked(*f));
    if (const auto* f = std::get_if<LiberoReplacement>(&fact)) return once(replacement(*f));
    if (const auto* f = std::get_if<Substitution>(&fact)) return once(substitution(*f));
    if (const auto* f = std::get_if<TimeOut>(&fact)) return once(time_out(*f));
    if (const auto* f = std::get_if<Serve>(&fact)) {
        // One touch on the winner records the service with the rally; a scorer may also say first
        // that the ball is in play.
        const auto* won = course_.at<RallyWon>(index + 1);
        if (f->server.worn() || won == nullptr || rallies_ % 3 == 2) return once(serve(*f));
        if (rallies_ % slip_every == 10 && !slip(*won)) return 0;
        return rally(*won) ? 2 : 0;
    }
    if (const auto* f = std::get_if<RallyWon>(&fact)) return once(rally(*f));
    if (const auto* f = std::get_if<LiberoUnable>(&fact)) {
        const auto* change = course_.at<Redesignation>(index + 1);
        if (change != nullptr) return redesignation(*f, *change) ? 2 : 0;
    }
    if (const auto* f = std::get_if<Ruling>(&fact)) return once(ruling(*f));
    if (std::holds_alternative<CourtSwitch>(fact)) return once(expected());
    fail(QStringLiteral("no gesture is known for this fact"));
    return 0;
}

// ---- before the set ---------------------------------------------------------------------------

bool TableHand::toss(const Toss& toss) {
    return press(toss.left == Team::A ? "sideA" : "sideB") &&
           press(toss.serves == Team::A ? "serveA" : "serveB") && press("recordToss");
}

bool TableHand::line_up(const LineUp& sheet) {
    ++line_ups_;
    // By tiles, by keys, and copied from the last set, in turn.
    if (line_ups_ % 4 == 2) return line_up_by_keys(sheet);
    if (line_ups_ % 4 == 3 && hand_.await("sameAsLast") != nullptr && !press("sameAsLast"))
        return false;
    return line_up_by_tiles(sheet);
}

bool TableHand::line_up_by_keys(const LineUp& sheet) {
    for (const Jersey jersey : sheet.order)
        if (!type(jersey) || !key(Qt::Key_Return)) return false;
    for (const LiberoBox& box : sheet.liberos) {
        if (box.mark == LiberoBox::Mark::none) {
            if (!key(Qt::Key_N)) return false;
        } else if (!type(box.number) || !key(Qt::Key_Return)) {
            return false;
        }
    }
    return key(Qt::Key_Return);
}

bool TableHand::line_up_by_tiles(const LineUp& sheet) {
    constexpr int first_box = static_cast<int>(players_on_court);
    constexpr int cells = first_box + static_cast<int>(libero_boxes);
    // CourtTile.Legal marks the cell that takes the next number.
    constexpr int legal = 2;
    for (int i = 0; i < cells; ++i) {
        const bool is_box = i >= first_box;
        const auto at = static_cast<std::size_t>(is_box ? i - first_box : i);
        const bool none = is_box && sheet.liberos[at].mark == LiberoBox::Mark::none;
        const QString wanted = none ? QStringLiteral("–")
                                    : number(is_box ? sheet.liberos[at].number : sheet.order[at]);
        const QString cell = QStringLiteral("cell%1").arg(i);
        const QQuickItem* shown = hand_.await(cell);
        if (shown == nullptr) return fail(cell + QStringLiteral(" is not shown"));
        if (shown->property("number").toString() == wanted) continue;
        if (none) {
            if (!press(QStringLiteral("none%1").arg(at))) return false;
            continue;
        }
        if (shown->property("offer").toInt() != legal && !press(cell)) return false;
        if (!press(QStringLiteral("roster") + wanted)) return false;
    }
    return press("handIn");
}

bool TableHand::checked(const LineUpChecked& check) {
    if (++checks_ % 3 != 1) return expected();
    for (int position = 0; position < static_cast<int>(players_on_court); ++position)
        if (!press(side(check.team) + QString::number(position))) return false;
    return true;
}

// ---- play ---------------------------------------------------------------------------------------

bool TableHand::replacement(const LiberoReplacement& act) {
    const Prompt prompt = next_step(course_.rules(), before());
    const bool is_expected = prompt.kind == Prompt::Kind::libero_must_leave &&
                             prompt.team == act.team && prompt.players[0] == act.in &&
                             prompt.players[1] == act.out;
    const Way way = next_way();
    if (is_expected && turn_ % 2 == 0) return expected();
    // A libero, or whom he replaces, is touched first; any other number would ask for a
    // substitution.
    const TeamSet& set = before().set.team[act.team];
    const Jersey first = acts_as_libero(set, act.out) ? act.out : act.in;
    const bool chosen =
        way == Way::keys ? replacement_by_keys(act, first) : replacement_by_tiles(act, first);
    if (!chosen) return false;
    if (!course_.steps()[index_].raises) return true;
    if (hand_.await("happened") == nullptr)
        return fail(QStringLiteral("the table does not say that it is not legal"));
    EXPECT_FALSE(hand_.text("why").isEmpty());
    hand_.picture(QStringLiteral("day-line%1-table-not-legal").arg(course_.steps()[index_].line));
    return turn_ % 2 == 0 ? key(Qt::Key_H) : press("happened");
}

bool TableHand::replacement_by_keys(const LiberoReplacement& act, Jersey first) {
    if (!key(Qt::Key_L)) return false;
    if (!left(act.team) && !key(Qt::Key_L)) return false;
    for (const Jersey jersey : {first, first == act.in ? act.out : act.in}) {
        if (!type(jersey)) return false;
        // Two figures are a number; one needs to be ended.
        if (jersey.number() < 10 && !key(Qt::Key_Return)) return false;
    }
    return true;
}

bool TableHand::replacement_by_tiles(const LiberoReplacement& act, Jersey first) {
    for (const Jersey jersey : {first, first == act.in ? act.out : act.in}) {
        QString name = tile(act.team, jersey);
        if (name.isEmpty()) name = QStringLiteral("other") + number(jersey);
        if (!press(name)) return false;
    }
    return true;
}

bool TableHand::substitution(const Substitution& request) {
    const Way way = next_way();
    const bool from_the_floor = way == Way::finger && request.count == 1;
    const bool opened = from_the_floor     ? press(tile(request.team, request.pairs[0].out))
                        : way == Way::keys ? key(Qt::Key_S)
                                           : press("substitution");
    if (!opened || hand_.await("recordSubstitution") == nullptr)
        return fail(QStringLiteral("the sheet for a substitution does not open"));
    if (!from_the_floor && !team_chosen(request.team)) return false;
    for (std::size_t i = 0; i < request.count; ++i) {
        const Pair& pair = request.pairs[i];
        if (way == Way::keys) {
            for (const Jersey jersey : {pair.in, pair.out})
                if (!type(jersey) || !key(Qt::Key_Return)) return false;
            continue;
        }
        if (!from_the_floor && !press(QStringLiteral("out") + number(pair.out))) return false;
        if (!press(QStringLiteral("in") + number(pair.in))) return false;
    }
    return (way == Way::keys ? key(Qt::Key_Return) : press("recordSubstitution")) &&
           gone("recordSubstitution");
}

bool TableHand::time_out(const TimeOut& time_out) {
    return (next_way() == Way::keys ? key(Qt::Key_T) : press("timeOut")) &&
           press(left(time_out.team) ? "timeOutLeft" : "timeOutRight") && press("sameLeft") &&
           press("sameRight") && gone("sameRight");
}

bool TableHand::serve(const Serve& serve) {
    if (serve.server.worn())
        return press("more") && press(another_server) &&
               press(QStringLiteral("server") + number(serve.server)) &&
               gone(QStringLiteral("server") + number(serve.server));
    const Prompt prompt = next_step(course_.rules(), before());
    // The one act on the line says it only when nothing else is due first.
    if (prompt.kind == Prompt::Kind::serve && next_way() != Way::keys) return press("expected");
    return key(Qt::Key_Up);
}

bool TableHand::rally(const RallyWon& rally) {
    ++rallies_;
    const bool on_left = left(rally.team);
    let_rest(on_left);
    const bool done = next_way() == Way::keys ? key(on_left ? Qt::Key_Left : Qt::Key_Right)
                                              : press(on_left ? "wonLeft" : "wonRight");
    rallied_ = on_left;
    return done;
}

void TableHand::let_rest(bool on_left) {
    // Faster than any rally, a second touch of the same area is taken for a double tap.
    if (rallied_ == on_left) QTest::qWait(static_cast<int>(TableSeat::rally_rest.count()));
}

bool TableHand::slip(const RallyWon& rally) {
    ++gestures_.struck;
    let_rest(!left(rally.team));
    if (!press(left(rally.team) ? "wonRight" : "wonLeft")) return false;
    if (gestures_.struck % 2 == 1) return press("undo");
    hand_.key(Qt::Key_Z, Qt::ControlModifier);
    return true;
}

bool TableHand::redesignation(const LiberoUnable& unable, const Redesignation& change) {
    const auto cause = std::find(causes.begin(), causes.end(), unable.cause) - causes.begin();
    return (next_way() == Way::keys ? key(Qt::Key_R) : press("redesignation")) &&
           team_chosen(change.team) && press(QStringLiteral("old") + number(change.out)) &&
           press(QStringLiteral("cause%1").arg(cause)) &&
           press(QStringLiteral("new") + number(change.in)) && press("consent") &&
           (hand_.picture(QStringLiteral("day-redesignation-table")), true) &&
           press("recordRedesignation") && gone("recordRedesignation");
}

bool TableHand::ruling(const Ruling& ruling) {
    const QString decision = ruling.decision == Ruling::Decision::accept ? "accept" : "overrule";
    return press("ruling") && press(decision) && gone(decision);
}

bool TableHand::remark(const std::string& words) {
    if (!press("remark") || hand_.await("words") == nullptr) return false;
    // The field takes the keys as soon as the sheet has opened.
    const auto typing = [&] {
        const QQuickItem* focus = window_.activeFocusItem();
        return focus != nullptr && focus->inherits("QQuickTextInput");
    };
    if (!QTest::qWaitFor(typing, patience_ms))
        return fail(QStringLiteral("nothing takes the words"));
    for (const char letter : words) QTest::keyClick(&window_, letter);
    gestures_.keys += static_cast<int>(words.size());
    return press("recordWords") && gone("recordWords");
}

bool TableHand::expected() {
    return next_way() == Way::keys ? key(Qt::Key_Return) : press("expected");
}

bool TableHand::team_chosen(Team team) {
    const QString name = left(team) ? "teamLeft" : "teamRight";
    if (!press(name)) return false;
    const QQuickItem* item = hand_.find(name);
    return (item != nullptr && item->property("checked").toBool()) ||
           fail(QStringLiteral("the team that was chosen is not marked"));
}

// ---- hand and eye -------------------------------------------------------------------------------

bool TableHand::press(const QString& name) {
    rallied_.reset();
    QPointF last{-1, -1};
    const auto stands = [&] {
        const QQuickItem* item = hand_.find(name);
        if (item == nullptr || !item->isEnabled()) return false;
        const QPointF now = item->mapToScene({item->width() / 2, item->height() / 2});
        return std::exchange(last, now) == now;
    };
    if (!QTest::qWaitFor(stands, patience_ms))
        return fail(name + QStringLiteral(" cannot be touched"));
    const bool by_mouse = ++presses_ % 2 == 0;
    ++(by_mouse ? gestures_.clicks : gestures_.touches);
    return by_mouse ? hand_.click(name) : hand_.touch(name);
}

bool TableHand::key(Qt::Key key) {
    rallied_.reset();
    const auto active = [&] { return QGuiApplication::focusWindow() == &window_; };
    if (!active()) window_.requestActivate();
    if (!QTest::qWaitFor(active, patience_ms))
        return fail(QStringLiteral("the window does not take keys"));
    hand_.key(key);
    ++gestures_.keys;
    return true;
}

bool TableHand::type(Jersey jersey) {
    for (const QChar figure : number(jersey))
        if (!key(static_cast<Qt::Key>(Qt::Key_0 + figure.digitValue()))) return false;
    return true;
}

bool TableHand::gone(const QString& name) {
    return QTest::qWaitFor([&] { return !hand_.shows(name); }, patience_ms) ||
           fail(name + QStringLiteral(" does not go away"));
}

bool TableHand::fail(const QString& words) {
    hand_.picture(QStringLiteral("day-failed-table"));
    ADD_FAILURE() << "line " << course_.steps()[index_].line << " ("
                  << script_line(Record{course_.steps()[index_].fact})
                  << "): " << words.toStdString();
    return false;
}

TableHand::Way TableHand::next_way() {
    return static_cast<Way>(turn_++ % 3);
}

bool TableHand::left(Team team) const {
    return before().set.left == team;
}

QString TableHand::side(Team team) const {
    return left(team) ? QStringLiteral("left") : QStringLiteral("right");
}

QString TableHand::tile(Team team, Jersey jersey) const {
    QStringList names;
    for (std::size_t i = 0; i < players_on_court; ++i) names << side(team) + QString::number(i);
    for (std::size_t i = 0; i < libero_boxes; ++i)
        names << side(team) + QStringLiteral("Libero") + QString::number(i);
    for (const QString& name : names) {
        const QQuickItem* item = hand_.find(name);
        if (item != nullptr && item->property("number").toString() == number(jersey)) return name;
    }
    return {};
}

}  // namespace courthand::client::test
