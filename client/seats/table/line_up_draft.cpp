#include "line_up_draft.h"

#include <algorithm>

#include "courthand/rules/judge.h"

namespace courthand::client {

void LineUpDraft::start(const Rules& rules, const MatchState& state, Team team,
                        const Wording& wording,
                        const PerTeam<std::array<QString, Jersey::largest + 1>>& names,
                        const std::vector<MatchSheet::Player>& listed) {
    rules_ = &rules;
    state_ = state;
    team_ = team;
    wording_ = wording;
    names_ = names;
    order_ = {};
    boxes_ = {};
    captain_ = {};
    current_ = 0;
    naming_captain_ = false;
    typed_.clear();
    steps_.clear();
    listed_liberos_.clear();
    for (const MatchSheet::Player& player : listed)
        if (player.libero) listed_liberos_.push_back(player.number);
    Q_EMIT changed();
}

void LineUpDraft::look(const MatchState& state) {
    if (state_ == state) return;
    state_ = state;
    Q_EMIT changed();
}

void LineUpDraft::keep(const Page& before) {
    if (before == page()) return;
    if (steps_.size() == most_steps) steps_.erase(steps_.begin());
    steps_.push_back(before);
}

bool LineUpDraft::take_back() {
    if (!typed_.empty()) {
        typed_.clear();
    } else if (naming_captain_) {
        naming_captain_ = false;
    } else if (!steps_.empty()) {
        const Page before = steps_.back();
        steps_.pop_back();
        order_ = before.order;
        boxes_ = before.boxes;
        captain_ = before.captain;
        current_ = before.current;
    } else {
        return false;
    }
    Q_EMIT changed();
    return true;
}

LineUp LineUpDraft::sheet() const {
    LineUp sheet{team_, order_, boxes_, captain_};
    // The team captain is marked without asking when he starts and nobody else was named.
    const Jersey team_captain = state_.team[team_].captain;
    if (!sheet.captain.worn() &&
        std::find(order_.begin(), order_.end(), team_captain) != order_.end())
        sheet.captain = team_captain;
    return sheet;
}

QVariantList LineUpDraft::cells() const {
    std::vector<SheetCell> cells;
    const Jersey captain = sheet().captain;
    for (int i = 0; i < cell_count; ++i) {
        const bool box = i >= first_box;
        const LiberoBox& entry = boxes_[static_cast<std::size_t>(box ? i - first_box : 0)];
        const Jersey jersey = box ? entry.number : order_[static_cast<std::size_t>(box ? 0 : i)];
        SheetCell cell;
        cell.label = !box             ? Wording::roman(all_slots[static_cast<std::size_t>(i)])
                     : i == first_box ? tr("Libero L")
                                      : tr("Libero R");
        cell.number = Wording::number(jersey);
        cell.none = box && entry.mark == LiberoBox::Mark::none;
        cell.current = i == current_ && !naming_captain_;
        cell.captain = jersey.worn() && jersey == captain;
        cells.push_back(cell);
    }
    return as_list(cells);
}

QVariantList LineUpDraft::roster() const {
    std::vector<PlayerTile> list;
    const TeamRecord& record = state_.team[team_];
    for (std::size_t i = 0; i < record.count; ++i) {
        const Jersey jersey = record.players[i].jersey;
        const bool used = std::find(order_.begin(), order_.end(), jersey) != order_.end() ||
                          boxes_[0].number == jersey || boxes_[1].number == jersey;
        PlayerTile player;
        player.number = jersey.number();
        player.name = names_[team_][jersey.number()];
        player.used = used;
        player.captain = jersey == record.captain;
        player.libero = record.players[i].libero == LiberoRole::designated;
        list.push_back(player);
    }
    return as_list(list);
}

QStringList LineUpDraft::problems() const {
    QStringList sentences;
    if (rules_ == nullptr || !complete()) return sentences;
    for (const Verdict& verdict : objections_to(*rules_, state_, sheet()))
        sentences << wording_.why(verdict.reason);
    sentences.removeDuplicates();
    return sentences;
}

bool LineUpDraft::complete() const {
    return std::all_of(order_.begin(), order_.end(), [](Jersey j) { return j.worn(); }) &&
           boxesSettled();
}

bool LineUpDraft::boxesSettled() const {
    return std::all_of(boxes_.begin(), boxes_.end(),
                       [](const LiberoBox& box) { return box.mark != LiberoBox::Mark::blank; });
}

void LineUpDraft::setNamingCaptain(bool on) {
    naming_captain_ = on;
    Q_EMIT changed();
}

void LineUpDraft::moveTo(int cell) {
    if (cell < 0 || cell >= cell_count) return;
    naming_captain_ = false;
    current_ = cell;
    typed_.clear();
    Q_EMIT changed();
}

void LineUpDraft::put(int number) {
    if (number < 0 || number > Jersey::largest) return;
    const Page before = page();
    const auto jersey = [number] { return Jersey{static_cast<std::uint8_t>(number)}; };
    if (naming_captain_) {
        captain_ = jersey();
        naming_captain_ = false;
        keep(before);
        Q_EMIT changed();
        return;
    }
    if (current_ < first_box)
        order_[static_cast<std::size_t>(current_)] = jersey();
    else
        boxes_[static_cast<std::size_t>(current_ - first_box)] = {LiberoBox::Mark::number,
                                                                  jersey()};
    goOn();
    keep(before);
    Q_EMIT changed();
}

void LineUpDraft::boxNone(int box) {
    if (box < 0 || box >= static_cast<int>(libero_boxes)) return;
    const Page before = page();
    boxes_[static_cast<std::size_t>(box)] = {LiberoBox::Mark::none, Jersey::none()};
    goOn();
    keep(before);
    Q_EMIT changed();
}

void LineUpDraft::noneInOpenBox() {
    for (std::size_t box = 0; box < libero_boxes; ++box)
        if (boxes_[box].mark == LiberoBox::Mark::blank) return boxNone(static_cast<int>(box));
}

void LineUpDraft::clear(int cell) {
    if (cell < 0 || cell >= cell_count) return;
    const Page before = page();
    if (cell < first_box)
        order_[static_cast<std::size_t>(cell)] = Jersey::none();
    else
        boxes_[static_cast<std::size_t>(cell - first_box)] = {};
    current_ = cell;
    keep(before);
    Q_EMIT changed();
}

void LineUpDraft::copyLast() {
    if (!last_[team_]) return;
    const Page before = page();
    order_ = last_[team_]->order;
    boxes_ = last_[team_]->liberos;
    captain_ = last_[team_]->captain;
    current_ = 0;
    keep(before);
    Q_EMIT changed();
}

std::vector<Jersey> LineUpDraft::proposed_liberos() const {
    const TeamRecord& record = state_.team[team_];
    const auto blank = [](const LiberoBox& box) { return box.mark == LiberoBox::Mark::blank; };
    const bool said = std::any_of(record.designated.begin(), record.designated.end(),
                                  [](Jersey jersey) { return jersey.worn(); }) ||
                      !std::all_of(boxes_.begin(), boxes_.end(), blank);
    // Of more than there are boxes the list does not say which.
    if (said || listed_liberos_.size() > libero_boxes) return {};
    const bool may =
        std::all_of(listed_liberos_.begin(), listed_liberos_.end(), [&](Jersey jersey) {
            return find(record, jersey) != nullptr &&
                   std::find(order_.begin(), order_.end(), jersey) == order_.end();
        });
    return may ? listed_liberos_ : std::vector<Jersey>{};
}

QString LineUpDraft::listedLiberos() const {
    QStringList numbers;
    for (const Jersey jersey : proposed_liberos()) numbers << Wording::number(jersey);
    return numbers.join(tr(", "));
}

void LineUpDraft::takeListedLiberos() {
    const Page before = page();
    const std::vector<Jersey> liberos = proposed_liberos();
    for (std::size_t box = 0; box < liberos.size(); ++box)
        boxes_[box] = {LiberoBox::Mark::number, liberos[box]};
    if (current_ >= first_box) goOn();
    keep(before);
    Q_EMIT changed();
}

void LineUpDraft::acceptTyped() {
    if (const auto jersey = typed_.take())
        put(jersey->number());
    else
        Q_EMIT changed();
}

void LineUpDraft::eraseTyped() {
    if (typed_.empty())
        clear(current_);
    else
        typed_.erase();
    Q_EMIT changed();
}

void LineUpDraft::goOn() {
    const auto empty = [this](int cell) {
        return cell < first_box ? !order_[static_cast<std::size_t>(cell)].worn()
                                : boxes_[static_cast<std::size_t>(cell - first_box)].mark ==
                                      LiberoBox::Mark::blank;
    };
    for (int step = 1; step <= cell_count; ++step) {
        const int cell = (current_ + step) % cell_count;
        if (empty(cell)) {
            current_ = cell;
            return;
        }
    }
}

}  // namespace courthand::client
