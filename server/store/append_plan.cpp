#include "server/store/append_plan.h"

#include <algorithm>
#include <cstring>

#include <fmt/format.h>

namespace courthand::server {
namespace {

class Planner {
  public:
    explicit Planner(AppendContext context) : context_{std::move(context)} {
        plan_.head = context_.head;
    }

    void take(std::size_t index, const AppendItem& item) {
        AppendResult result = decide(item);
        if (result.fate == Fate::appended || result.fate == Fate::branched)
            keep(index, item, result);
        const auto head = context_.heads.find(item.match);
        if (head != context_.heads.end()) result.head = head->second;
        plan_.results.push_back(std::move(result));
    }

    AppendPlan finish() { return std::move(plan_); }

  private:
    AppendResult decide(const AppendItem& item);
    void keep(std::size_t index, const AppendItem& item, AppendResult& result);
    std::uint32_t branch_number(const AppendItem& item);

    AppendContext context_;
    AppendPlan plan_;
};

AppendResult refused(Cause cause, std::string message) {
    AppendResult result;
    result.fate = Fate::invalid;
    result.cause = cause;
    result.message = std::move(message);
    return result;
}

AppendResult branched(std::string why) {
    AppendResult result;
    result.fate = Fate::branched;
    result.message = std::move(why);
    return result;
}

AppendResult gap(EntryNumber wanted) {
    AppendResult result;
    result.fate = Fate::gap;
    result.wanted = wanted;
    result.message = fmt::format("entry {} is wanted first", wanted);
    return result;
}

/// Nobody was granted the match: the first device that sends its first entry becomes its writer,
/// so that a table that began without the network is not turned away.
bool claims_first_epoch(const MatchHead& head, const AppendItem& item) {
    return head.epoch == 0 && item.epoch == 1 && item.number == 1;
}

void claim_first_epoch(MatchHead& head, const AppendItem& item) {
    head.epoch = 1;
    head.writer = item.device;
    head.grant = item.grant;
    if (head.grant.nil()) head.grant.value = new_uuid();
    head.self_granted = true;
}

AppendResult Planner::decide(const AppendItem& item) {
    const auto found = context_.heads.find(item.match);
    if (found == context_.heads.end())
        return refused(Cause::unknown_match,
                       fmt::format("match {} is not known here; the desk must create it first",
                                   to_text(item.match)));
    if (const auto known = context_.known.find(item.id); known != context_.known.end()) {
        if (known->second.match != item.match || known->second.hash != item.hash)
            return refused(
                Cause::id_used, fmt::format("entry id {} was used before with another content", to_text(item.id)));
        AppendResult result;
        result.fate = Fate::already_had;
        result.position = known->second.position;
        result.branch = known->second.branch;
        return result;
    }
    if (item.number == 0 || item.number > most_entries)
        return refused(
            Cause::full, fmt::format("entry number {} is outside 1 to {}", item.number, most_entries));
    MatchHead head = found->second;
    if (claims_first_epoch(head, item)) claim_first_epoch(head, item);
    if (item.epoch < head.epoch)
        return branched(
            fmt::format("epoch {} is over, epoch {} writes now", item.epoch, head.epoch));
    if (item.epoch > head.epoch)
        return branched(fmt::format("epoch {} was never granted here", item.epoch));
    if (item.device != head.writer) return branched("another device writes this epoch");
    if (!item.grant.nil() && item.grant != head.grant)
        return branched("the epoch was granted anew; this is an older grant of it");
    if (item.number == head.last + 1 && item.previous == head.hash) {
        AppendResult result;
        result.fate = Fate::appended;
        return result;
    }
    if (item.number > head.last + 1 && !context_.branch_hashes.contains(item.previous))
        return gap(head.last + 1);
    return branched(fmt::format("does not follow the stored entry {}", item.number - 1));
}

void Planner::keep(std::size_t index, const AppendItem& item, AppendResult& result) {
    result.position = ++plan_.head;
    if (result.fate == Fate::branched) result.branch = branch_number(item);
    context_.known[item.id] = {item.match, item.hash, result.position, result.branch};
    if (result.branch != 0) {
        context_.branch_hashes.insert(item.hash);
        plan_.branches.push_back(index);
        return;
    }
    MatchHead& head = context_.heads[item.match];
    if (claims_first_epoch(head, item)) {
        claim_first_epoch(head, item);
        plan_.first_grants.push_back(item.match);
    }
    head.last = item.number;
    head.hash = item.hash;
    plan_.heads[item.match] = head;
    plan_.entries.push_back(index);
}

std::uint32_t Planner::branch_number(const AppendItem& item) {
    const BranchKey key{item.match, item.device, item.epoch};
    if (const auto found = context_.branches.find(key); found != context_.branches.end())
        return found->second;
    std::uint32_t last = 0;
    for (auto it = context_.branches.lower_bound(BranchKey{item.match, {}, 0});
         it != context_.branches.end() && it->first.match == item.match; ++it)
        last = std::max(last, it->second);
    return context_.branches[key] = last + 1;
}

}  // namespace

std::size_t HashOfHash::operator()(const Hash& hash) const noexcept {
    std::size_t head = 0;
    std::memcpy(&head, hash.data(), sizeof head);
    return head;
}

AppendPlan plan_append(AppendContext context, std::span<const AppendItem> items) {
    Planner planner{std::move(context)};
    for (std::size_t i = 0; i < items.size(); ++i) planner.take(i, items[i]);
    return planner.finish();
}

Result<MatchHead> next_writer(const MatchHead& head, const GrantWish& wish) {
    if (head.epoch != 0 && head.writer == wish.device) return head;
    if (head.epoch != 0 && !head.writer.nil() && wish.how == GrantWish::How::granted)
        return Status::failed(
            StatusCode::conflict,
            fmt::format("another device writes match {}", to_text(wish.key.match)),
            "hand the match over on that device, or let the head official take it over");
    MatchHead next = head;
    next.epoch = head.epoch + 1;
    next.writer = wish.device;
    next.grant.value = new_uuid();
    next.self_granted = false;
    return next;
}

}  // namespace courthand::server
