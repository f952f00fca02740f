#include "substitution_draft.h"

#include <algorithm>

namespace courthand::client {

void SubstitutionDraft::start(const Rules& rules, const MatchState& state, Team team, bool on_left,
                              const Wording& wording, Jersey out) {
    rules_ = &rules;
    state_ = state;
    wording_ = wording;
    on_left_ = on_left;
    legal_ = legal_actions(rules, state, team);
    pairs_ = {};
    pairs_.team = team;
    in_ = {};
    out_ = out;
    typed_.clear();
    exceptional_ = false;
    Q_EMIT changed();
}

Fact SubstitutionDraft::fact() const {
    if (exceptional_ && pairs_.count == 1)
        return ExceptionalSubstitution{pairs_.team, pairs_.pairs[0].in, pairs_.pairs[0].out,
                                       Cause::injury};
    return pairs_;
}

bool SubstitutionDraft::stands(Jersey jersey) const {
    const Six six = on_court(state_.set.team[pairs_.team]);
    return std::find(six.begin(), six.end(), jersey) != six.end();
}

const Option* SubstitutionDraft::option(Jersey in, Jersey out) const {
    for (const Option& candidate : legal_.substitutions) {
        const auto* sub = std::get_if<Substitution>(&candidate.fact);
        if (sub != nullptr && sub->count == 1 && sub->pairs[0].in == in && sub->pairs[0].out == out)
            return &candidate;
    }
    return nullptr;
}

/// A libero takes part in no substitution, whatever else speaks against it.
QString SubstitutionDraft::why_not(Jersey jersey, const Option* candidate) const {
    if (candidate == nullptr || candidate->legal) return {};
    return acts_as_libero(state_.set.team[pairs_.team], jersey) ? tr("libero")
                                                                : Wording::brief(candidate->reason);
}

QVariantList SubstitutionDraft::onCourt() const {
    std::vector<PlayerTile> list;
    const Six six = on_court(state_.set.team[pairs_.team]);
    for (const Position p : all_positions) {
        const Jersey jersey = six[index(p)];
        const bool used = std::any_of(pairs_.pairs.begin(), pairs_.pairs.begin() + pairs_.count,
                                      [&](const Pair& pair) { return pair.out == jersey; });
        const Option* candidate = in_.worn() ? option(in_, jersey) : nullptr;
        PlayerTile player;
        player.number = jersey.worn() ? jersey.number() : -1;
        player.numeral = Wording::roman(p);
        player.libero = acts_as_libero(state_.set.team[pairs_.team], jersey);
        player.chosen = jersey.worn() && jersey == out_;
        player.used = used;
        player.legal = candidate != nullptr && candidate->legal;
        player.why_not = why_not(jersey, candidate);
        list.push_back(player);
    }
    return as_list(list);
}

QVariantList SubstitutionDraft::bench() const {
    std::vector<PlayerTile> list;
    const TeamRecord& record = state_.team[pairs_.team];
    for (std::size_t i = 0; i < record.count; ++i) {
        const Jersey jersey = record.players[i].jersey;
        if (stands(jersey)) continue;
        const Option* candidate = out_.worn() ? option(jersey, out_) : nullptr;
        PlayerTile player;
        player.number = jersey.number();
        player.chosen = jersey == in_;
        player.used = std::any_of(pairs_.pairs.begin(), pairs_.pairs.begin() + pairs_.count,
                                  [&](const Pair& pair) { return pair.in == jersey; });
        player.legal = candidate != nullptr && candidate->legal;
        player.why_not = why_not(jersey, candidate);
        list.push_back(player);
    }
    return as_list(list);
}

QStringList SubstitutionDraft::pairs() const {
    QStringList words;
    for (std::size_t i = 0; i < pairs_.count; ++i)
        words << tr("%1 for %2")
                     .arg(Wording::number(pairs_.pairs[i].in),
                          Wording::number(pairs_.pairs[i].out));
    return words;
}

QStringList SubstitutionDraft::problems() const {
    QStringList sentences;
    if (rules_ == nullptr || pairs_.count == 0) return sentences;
    for (const Verdict& verdict : objections_to(*rules_, state_, fact()))
        sentences
            << tr("%1 Remedy: %2.").arg(wording_.why(verdict.reason), wording_.remedy(verdict));
    sentences.removeDuplicates();
    return sentences;
}

void SubstitutionDraft::setExceptional(bool on) {
    exceptional_ = on;
    Q_EMIT changed();
}

void SubstitutionDraft::pick(int number) {
    if (number < 0 || number > Jersey::largest) return;
    const Jersey jersey{static_cast<std::uint8_t>(number)};
    (stands(jersey) ? out_ : in_) = jersey;
    if (in_.worn() && out_.worn() && pairs_.count < most_pairs) {
        pairs_.pairs[pairs_.count++] = {in_, out_};
        in_ = {};
        out_ = {};
    }
    Q_EMIT changed();
}

void SubstitutionDraft::dropPair(int index) {
    if (index < 0 || index >= pairs_.count) return;
    const auto at = static_cast<std::size_t>(index);
    for (std::size_t i = at; i + 1 < pairs_.count; ++i) pairs_.pairs[i] = pairs_.pairs[i + 1];
    --pairs_.count;
    pairs_.pairs[pairs_.count] = {};
    Q_EMIT changed();
}

void SubstitutionDraft::acceptTyped() {
    if (const auto jersey = typed_.take()) pick(jersey->number());
    Q_EMIT changed();
}

void SubstitutionDraft::eraseTyped() {
    if (!typed_.empty())
        typed_.erase();
    else if (pairs_.count > 0)
        dropPair(pairs_.count - 1);
    Q_EMIT changed();
}

}  // namespace courthand::client
