#include "act_preview.h"

#include <QPointer>
#include <algorithm>
#include <utility>
#include <variant>

#include "courthand/event/act.h"
#include "courthand/event/change.h"
#include "courthand/event/fold.h"
#include "courthand/event/limits.h"
#include "courthand/event/pages.h"
#include "courthand/event/settled_change.h"
#include "courthand/event/unfit.h"
#include "event_words.h"
#include "venue/match_id.h"
#include "venue_words.h"
#include "wire/uuid.h"

namespace courthand::seats {

namespace {

/// Lines of what came between; more than a person reads before asking again.
constexpr event::FactNumber most_between = 8;

QString question_about(event::Settled settled) {
    switch (settled) {
        case event::Settled::list:
            return ActPreview::tr("Why the frozen list changes (no health or personal details)");
        case event::Settled::left:
            return ActPreview::tr("Why it leaves (no health or personal details)");
        case event::Settled::result:
            return ActPreview::tr("Why a confirmed result changes (no health or personal details)");
        case event::Settled::plan:
            return ActPreview::tr("Why the published plan changes (no health or personal details)");
        case event::Settled::taken_back:
            return ActPreview::tr("Why it is taken back (no health or personal details)");
    }
    return {};
}

bool wants_reason(const event::Finding& finding) {
    return finding.problem == event::Problem::reason_missing;
}

bool can_be_kept(const std::string& words) {
    return words.size() <= event::most_reason_bytes &&
           std::none_of(words.begin(), words.end(), [](char letter) {
               const auto byte = static_cast<unsigned char>(letter);
               return byte < 0x20 || byte == 0x7F;
           });
}

/// What cannot be kept of an act, as a sentence with place and cure; empty: nothing. The server
/// refuses it too, in words for programs.
QString unkept(const venue::EventAct& act) {
    for (const auto& said : act.facts) {
        if (const auto fault = event::unfit(said.fact)) return client::fault_words(*fault);
        if (!can_be_kept(said.words))
            return ActPreview::tr(
                       "The words beside it cannot be kept. Write up to %1 bytes, "
                       "without special keys.")
                .arg(event::most_reason_bytes);
    }
    return {};
}

}  // namespace

ActPreview::ActPreview(venue::EventSource& source, const venue::EventBook& book, QObject* parent)
    : QObject(parent), source_(source), book_(book) {
    reading_.setSingleShot(true);
    reading_.setInterval(least_read);
    connect(&reading_, &QTimer::timeout, this, &ActPreview::changed);
}

QStringList ActPreview::says() const {
    QStringList lines;
    for (const auto& said : act_.facts) lines << client::event_words(said.fact);
    return lines;
}

QStringList ActPreview::notes_now() const {
    return wish_.notes ? wish_.notes(*book_.state) : QStringList();
}

void ActPreview::say(const std::vector<event::Fact>& facts) {
    act_ = {};
    for (const auto& fact : facts) {
        act_.ids.push_back(venue::new_match_id());
        act_.facts.push_back({fact, {}});
    }
    put_words();
}

/// Beside a person stands the name: a reason has no room there.
void ActPreview::put_words() {
    if (act_.facts.empty()) return;
    const auto lists_nobody = [](const event::Said& said) {
        return !std::holds_alternative<event::PersonListed>(said.fact);
    };
    const auto last = std::find_if(act_.facts.rbegin(), act_.facts.rend(), lists_nobody);
    (last == act_.facts.rend() ? act_.facts.back() : *last).words =
        wish_.words.trimmed().toStdString();
}

std::vector<event::Fact> ActPreview::facts_said() const {
    std::vector<event::Fact> facts;
    for (const auto& said : act_.facts) facts.push_back(said.fact);
    return facts;
}

void ActPreview::look_for_settled() {
    const auto facts = facts_said();
    event::TournamentState after = *book_.state;
    for (const auto& fact : facts) event::fold_in(after, fact);
    const auto settled = event::settled_changes(*book_.state, after, facts);
    why_label_ = settled.empty() ? QString() : question_about(settled.front());
    std::vector<event::Said> bare = act_.facts;
    for (auto& said : bare)
        if (!std::holds_alternative<event::PersonListed>(said.fact)) said.words.clear();
    const auto objections = event::objections(*book_.state, bare);
    reason_wanted_ =
        !why_label_.isEmpty() && std::any_of(objections.begin(), objections.end(), wants_reason);
}

bool ActPreview::lacks_reason() const {
    return reason_wanted_ && wish_.words.trimmed().isEmpty();
}

QString ActPreview::whyMissing() const {
    if (!lacks_reason()) return {};
    return tr("The list is frozen: say why it changes. The reason stays beside the change.");
}

void ActPreview::setWhy(const QString& why) {
    // What was sent is being done as it was written.
    if (acting() || why == wish_.words) return;
    wish_.words = why;
    put_words();
    Q_EMIT changed();
}

void ActPreview::ask(ActWish wish) {
    if (stage_ == Stage::acting) {
        problem_ =
            tr("“%1” is still being recorded. Ask for the next when it is done.").arg(wish_.title);
        Q_EMIT changed();
        return;
    }
    // An answer to what was asked before is not one to this.
    stage_ = Stage::closed;
    ++question_;
    wish_ = std::move(wish);
    say(wish_.facts);
    notes_ = notes_now();
    shown_at_ = book_.state->last();
    shown_before_ = false;
    renewed_ = false;
    between_.clear();
    findings_.clear();
    effects_.clear();
    look_for_settled();
    Q_EMIT asked(++wishes_);
    askAgain();
}

void ActPreview::askAgain() {
    if (act_.facts.empty() || busy()) return;
    act_.seen = book_.state->last();
    if (const QString why = unkept(act_); !why.isEmpty()) {
        problem_ = why;
        stage_ = Stage::failed;
        Q_EMIT changed();
        return;
    }
    call(&venue::EventSource::preview, Stage::asking);
}

void ActPreview::act() {
    if (!mayAct()) return;
    if (const QString why = unkept(act_); !why.isEmpty()) {
        problem_ = why;
        Q_EMIT changed();
        return;
    }
    call(&venue::EventSource::act, Stage::acting);
}

void ActPreview::close() {
    // What was sent may be done: its answer is still told.
    if (stage_ == Stage::acting) return;
    ++question_;
    stage_ = Stage::closed;
    Q_EMIT changed();
}

void ActPreview::call(Call how, Stage stage) {
    stage_ = stage;
    problem_.clear();
    const std::uint64_t question = ++question_;
    Q_EMIT changed();
    (source_.*how)(act_,
                   [self = QPointer<ActPreview>(this), question](const venue::ActOutcome& outcome) {
                       if (!self) return;
                       QMetaObject::invokeMethod(
                           self.data(),
                           [self, outcome, question] {
                               if (self) self->take(outcome, question);
                           },
                           Qt::QueuedConnection);
                   });
}

void ActPreview::take(const venue::ActOutcome& outcome, std::uint64_t question) {
    if (question != question_) return;
    if (outcome.fate == venue::ActOutcome::Fate::failed) {
        problem_ = text(outcome.problem);
        // Nobody knows whether an act that failed was kept: the same act again is safe.
        stage_ = stage_ == Stage::acting ? Stage::shown : Stage::failed;
        Q_EMIT changed();
        return;
    }
    // The answer to an act was lost, and the act is in the record all the same.
    if (outcome.fate == venue::ActOutcome::Fate::had)
        finish();
    else if (stage_ == Stage::acting)
        take_act(outcome);
    else
        take_preview(outcome);
}

void ActPreview::take_preview(const venue::ActOutcome& outcome) {
    QStringList findings;
    look_for_settled();
    // A reason that is missing is asked for, where the act has room for it.
    for (const auto& finding : outcome.findings)
        if (!reason_wanted_ || !wants_reason(finding)) findings << client::finding_words(finding);
    // Old and new are those of the record on this screen; one that has come further asks again.
    event::TournamentState after = *book_.state;
    for (const auto& said : act_.facts) event::fold_in(after, said.fact);
    QStringList effects =
        client::effect_lines(outcome.effects, event::changes(*book_.state, after), *book_.state);
    // People rely on what was settled: where they may have read it is told too.
    const auto pages = event::pages_that_change(*book_.state, after);
    if (!why_label_.isEmpty() && !pages.empty()) effects << client::page_words(pages);
    const QStringList notes = notes_now();
    const bool differs = findings != findings_ || effects != effects_ || notes != notes_;
    // A person who has read something else is told why it is another thing now.
    if (shown_before_ && differs) tell_between();
    if (!shown_before_ || differs) reading_.start();
    findings_ = findings;
    effects_ = effects;
    notes_ = notes;
    shown_before_ = true;
    stage_ = Stage::shown;
    Q_EMIT changed();
    // The record may have gone on while the answer was on its way.
    book_changed();
}

void ActPreview::take_act(const venue::ActOutcome& outcome) {
    if (outcome.fate == venue::ActOutcome::Fate::overtaken) {
        // What it hangs on may have come while it was under way.
        static_cast<void>(take_renewed());
        return ask_renewed();
    }
    finish();
}

void ActPreview::finish() {
    stage_ = Stage::closed;
    Q_EMIT changed();
    Q_EMIT done(wish_.told, wishes_);
}

void ActPreview::tell_between() {
    const auto& facts = book_.state->facts;
    const event::FactNumber last = book_.state->last();
    between_.clear();
    if (renewed_) between_ << wish_.renewed_because;
    for (event::FactNumber n = shown_at_; n < std::min(last, shown_at_ + most_between); ++n)
        between_ << client::event_words(facts[n]);
    if (last > shown_at_ + most_between)
        between_ << tr("and %1 more").arg(last - shown_at_ - most_between);
    if (between_.isEmpty()) between_ << tr("Somebody else has changed the record.");
}

void ActPreview::book_changed() {
    if (stage_ != Stage::shown || book_.state->last() == act_.seen) return;
    // What is on the screen was said of an older record.
    if (!between_.isEmpty()) tell_between();
    askAgain();
}

void ActPreview::renew() {
    // What is being done is done as it was read; what becomes of it afterwards is told elsewhere.
    if (open() && !acting() && take_renewed()) ask_renewed();
}

/// False when the facts of the wish are what they were.
bool ActPreview::take_renewed() {
    if (!wish_.renewed) return false;
    const std::vector<event::Fact> facts = wish_.renewed();
    const auto same = [](const event::Said& said, const event::Fact& fact) {
        return said.fact == fact;
    };
    if (std::equal(act_.facts.begin(), act_.facts.end(), facts.begin(), facts.end(), same))
        return false;
    // An act whose answer was lost may be what has changed the record: asked again, it says so.
    if (in_record()) return false;
    say(facts);
    renewed_ = true;
    // What follows is another act: nothing of it was on the screen before.
    shown_before_ = false;
    // An answer to what was to be said before is not one to this.
    ++question_;
    return true;
}

void ActPreview::ask_renewed() {
    stage_ = Stage::shown;
    tell_between();
    reading_.start();
    if (!act_.facts.empty()) return askAgain();
    effects_.clear();
    findings_ = {wish_.none_left};
    Q_EMIT changed();
}

bool ActPreview::in_record() const {
    const auto& known = *book_.ids;
    return std::any_of(act_.ids.begin(), act_.ids.end(), [&](const venue::Id& id) {
        const auto uuid = wire::Uuid::from_text(id);
        return uuid && std::find(known.begin(), known.end(), uuid->bytes()) != known.end();
    });
}

}  // namespace courthand::seats
