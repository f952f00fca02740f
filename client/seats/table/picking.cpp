#include "picking.h"

#include <utility>

namespace courthand::client {

QVariantList Picking::otherNumbers() const {
    return as_list(Display{look_}.other_numbers(pick_.choice()));
}

QString Picking::team_typed() const {
    return pick_.typing_for() ? look_.wording.team(*pick_.typing_for()) : QString();
}

QString Picking::lead() const {
    if (proposal_) return {};
    if (choosing()) return tr("TOUCH");
    return typing() || pick_.typing_for() || pick_.asks_for_team() ? tr("TYPE") : QString();
}

QString Picking::line(const QString& key) const {
    if (proposal_) return proposal_->words;
    if (choosing()) return Display{look_}.choice_words(pick_.choice());
    const QString& number = pick_.typed();
    if (pick_.asks_for_team()) {
        if (pick_.typing_for()) return tr("%1 of %2? Return").arg(number, team_typed());
        return tr("%1 is in both teams: %2 for the left team, again for the right, then Return")
            .arg(number, key);
    }
    if (pick_.typing_for()) return tr("%1, number: %2_").arg(team_typed(), number);
    return number.isEmpty() ? QString() : tr("number %1_").arg(number);
}

void Picking::touch(Team team, Jersey jersey) {
    proposal_.reset();
    follow(pick_.touch(look_.rules(), look_.state(), team, jersey));
}

void Picking::touchNumber(bool onLeft, int number) {
    touch(table_.team_on(onLeft), jersey_of(number));
}

void Picking::follow(const CourtPick::Result& result) {
    if (const auto* record = std::get_if<CourtPick::Record>(&result)) {
        table_.perform({record->fact});
    } else if (const auto* illegal = std::get_if<CourtPick::Propose>(&result)) {
        table_.propose(illegal->option);
    } else if (const auto* request = std::get_if<CourtPick::Substitute>(&result)) {
        table_.want_substitution(request->team, request->out);
    } else {
        table_.show_again();
        if (const auto* unknown = std::get_if<CourtPick::Unknown>(&result)) tell_unknown(*unknown);
    }
}

void Picking::tell_unknown(const CourtPick::Unknown& unknown) {
    const QString number = Wording::number(unknown.jersey);
    table_.say(
        unknown.team
            ? tr("%1 is not in the team list of %2").arg(number, look_.wording.team(*unknown.team))
            : tr("%1 is in neither team list").arg(number),
        false);
}

void Picking::drop() {
    pick_.let_go();
    proposal_.reset();
}

void Picking::letGo() {
    drop();
    table_.show_again();
}

void Picking::itHappened() {
    if (!proposal_) return;
    // Recording it ends the question.
    const std::vector<Fact> facts = proposal_->facts;
    table_.perform(facts);
}

void Picking::next_team() {
    proposal_.reset();
    pick_.next_team(table_.team_on(true));
    table_.show_again();
}

void Picking::digit(int figure) {
    if (pick_.digit(figure))
        enter();
    else
        table_.show_again();
}

void Picking::erase() {
    pick_.erase();
    table_.show_again();
}

void Picking::enter() {
    proposal_.reset();
    follow(pick_.enter(look_.rules(), look_.state()));
}

}  // namespace courthand::client
