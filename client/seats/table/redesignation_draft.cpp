#include "redesignation_draft.h"

#include <algorithm>

namespace courthand::client {

namespace {
constexpr std::array causes_offered{Cause::injury, Cause::illness, Cause::declared,
                                    Cause::expulsion, Cause::disqualification};
}  // namespace

void RedesignationDraft::start(const Rules& rules, const MatchState& state, Team team, bool on_left,
                               const Wording& wording) {
    rules_ = &rules;
    state_ = state;
    team_ = team;
    on_left_ = on_left;
    wording_ = wording;
    out_ = {};
    in_ = {};
    cause_ = Cause::declared;
    consent_ = false;
    typed_.clear();
    // With a single libero, or a single one who is already unable, there is nothing to ask.
    const TeamSet& set = state.set.team[team];
    std::vector<Jersey> worn;
    std::vector<Jersey> unable;
    for (const Jersey libero : set.liberos) {
        if (!libero.worn()) continue;
        worn.push_back(libero);
        if (isUnable(libero)) unable.push_back(libero);
    }
    if (unable.size() == 1)
        out_ = unable.front();
    else if (worn.size() == 1)
        out_ = worn.front();
    ask();
}

bool RedesignationDraft::isUnable(Jersey libero) const {
    const PlayerRecord* record = find(state_.team[team_], libero);
    return record != nullptr && record->libero_unable != 0;
}

void RedesignationDraft::ask() {
    after_ = state_;
    if (out_.worn() && !isUnable(out_))
        after_ = judge(*rules_, state_, Entry{0, LiberoUnable{team_, out_, cause_}}).state;
    legal_ = legal_actions(*rules_, after_, team_);
    Q_EMIT changed();
}

std::vector<Fact> RedesignationDraft::facts() const {
    std::vector<Fact> facts;
    if (!isUnable(out_)) facts.emplace_back(LiberoUnable{team_, out_, cause_});
    facts.emplace_back(Redesignation{team_, out_, in_});
    return facts;
}

QString RedesignationDraft::remark() const {
    return tr("reason: %1; the first referee consents").arg(Wording::cause(cause_));
}

const Option* RedesignationDraft::option(Jersey in) const {
    for (const Option& candidate : legal_.redesignations) {
        const auto* change = std::get_if<Redesignation>(&candidate.fact);
        if (change != nullptr && change->in == in && change->out == out_) return &candidate;
    }
    return nullptr;
}

QVariantList RedesignationDraft::liberos() const {
    std::vector<PlayerTile> list;
    for (const Jersey libero : state_.set.team[team_].liberos) {
        if (!libero.worn()) continue;
        PlayerTile entry;
        entry.number = libero.number();
        entry.chosen = libero == out_;
        entry.unable = isUnable(libero);
        list.push_back(entry);
    }
    return as_list(list);
}

QVariantList RedesignationDraft::candidates() const {
    std::vector<PlayerTile> list;
    const TeamRecord& record = state_.team[team_];
    for (std::size_t i = 0; i < record.count; ++i) {
        const Jersey jersey = record.players[i].jersey;
        if (jersey == out_) continue;
        const Option* candidate = out_.worn() ? option(jersey) : nullptr;
        PlayerTile entry;
        entry.number = jersey.number();
        entry.chosen = jersey == in_;
        entry.legal = candidate != nullptr && candidate->legal;
        entry.why_not = candidate != nullptr && !candidate->legal
                            ? Wording::brief(candidate->reason)
                            : QString();
        list.push_back(entry);
    }
    return as_list(list);
}

QVariantList RedesignationDraft::causes() const {
    std::vector<ChoiceWord> list;
    for (const Cause cause : causes_offered) {
        ChoiceWord entry;
        entry.word = Wording::cause(cause);
        entry.chosen = cause == cause_;
        list.push_back(entry);
    }
    return as_list(list);
}

void RedesignationDraft::setConsent(bool given) {
    consent_ = given;
    Q_EMIT changed();
}

QString RedesignationDraft::refusal() const {
    if (rules_ == nullptr || !out_.worn() || !in_.worn()) return {};
    if (const Option* candidate = option(in_))
        return candidate->legal ? QString() : wording_.why(candidate->reason);
    const Option other = option_for(*rules_, after_, Redesignation{team_, out_, in_});
    return other.legal ? QString() : wording_.why(other.reason);
}

void RedesignationDraft::pickOld(int number) {
    out_ = Jersey{static_cast<std::uint8_t>(std::clamp(number, 0, int{Jersey::largest}))};
    ask();
}

void RedesignationDraft::pickNew(int number) {
    in_ = Jersey{static_cast<std::uint8_t>(std::clamp(number, 0, int{Jersey::largest}))};
    Q_EMIT changed();
}

void RedesignationDraft::pickCause(int index) {
    if (index < 0 || index >= static_cast<int>(causes_offered.size())) return;
    cause_ = causes_offered[static_cast<std::size_t>(index)];
    ask();
}

void RedesignationDraft::acceptTyped() {
    if (const auto jersey = typed_.take()) {
        if (out_.worn())
            pickNew(jersey->number());
        else
            pickOld(jersey->number());
    }
    Q_EMIT changed();
}

}  // namespace courthand::client
