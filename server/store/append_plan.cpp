#include "server/store/append_plan.h"

#include <algorithm>
#include <cstring>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "wire/message_limits.h"

namespace courthand::server {
namespace {

static_assert(most_lost_epochs * most_entries < wire::most_epochs,
              "entries that recover lost epochs stay below the limit, so that a grant can follow");

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

AppendResult appended() {
    AppendResult result;
    result.fate = Fate::appended;
    return result;
}

AppendResult gap(EntryNumber wanted) {
    AppendResult result;
    result.fate = Fate::gap;
    result.wanted = wanted;
    result.message = fmt::format("entry {} is wanted first", wanted);
    return result;
}

bool follows(const MatchHead& head, const AppendItem& item) noexcept {
    return item.number == head.last + 1 && item.previous == head.hash;
}

/// Nobody was granted the match: the first device that sends its first entry becomes its writer,
/// so that a table that began without the network is not turned away.
bool claims_first_epoch(const MatchHead& head, const AppendItem& item) {
    return head.epoch == 0 && item.epoch == 1 && item.number == 1;
}

/// A database that was put back may have lost the grant of a later epoch. The entry proves by its
/// hash that its device goes on exactly where the record ends. That is taken when the device writes
/// already, or as long as nobody went on with the record since: then nobody loses his right to
/// write without consent. Otherwise the entry waits on a branch, and a grant lets it be promoted.
bool recovers_epoch(const MatchContext& at, const AppendItem& item) {
    return item.epoch > at.head.epoch && item.epoch - at.head.epoch <= most_lost_epochs &&
           follows(at.head, item) &&
           (at.put_back || (at.head.epoch != 0 && item.device == at.head.writer));
}

std::optional<EpochClaim> claim_of(const MatchContext& at, const AppendItem& item) {
    const bool first = claims_first_epoch(at.head, item);
    if (!first && !recovers_epoch(at, item)) return std::nullopt;
    EpochClaim claim;
    claim.match = item.match;
    claim.how = first ? EpochClaim::How::first : EpochClaim::How::recovered;
    claim.from = item.number;
    claim.head = at.head;
    claim.head.epoch = item.epoch;
    claim.head.writer = item.device;
    claim.head.grant = item.grant;
    if (claim.head.grant.nil()) claim.head.grant.value = new_uuid();
    claim.head.self_granted = first;
    claim.head.recovered = !first;
    return claim;
}

/// Why the item's device may not write under this head; empty when it may.
std::string may_not_write(const MatchHead& head, const AppendItem& item) {
    if (item.epoch < head.epoch)
        return fmt::format("epoch {} is over, epoch {} writes now", item.epoch, head.epoch);
    if (item.epoch > head.epoch) return fmt::format("epoch {} was never granted here", item.epoch);
    if (item.device != head.writer) return "another device writes this epoch";
    if (!item.grant.nil() && item.grant != head.grant)
        return "the epoch was granted anew; this is an older grant of it";
    return {};
}

bool continues(const MatchHead& head, const BranchEntry& entry) {
    return entry.previous == head.hash && entry.number == head.last + 1 &&
           entry.device == head.writer && entry.epoch == head.epoch;
}

BranchKey key_of(const BranchEntry& entry) {
    return {entry.match, entry.device, entry.epoch};
}

class Planner {
  public:
    explicit Planner(AppendContext context) : context_{std::move(context)} {
        plan_.head = context_.head;
        for (const auto& [hash, entry] : context_.beside) after_.emplace(entry.previous, hash);
    }

    void take(std::size_t index, const AppendItem& item) {
        AppendResult result = decide(item);
        if (result.fate == Fate::branched) limit_branches(item, result);
        if (result.fate == Fate::appended) join(index, item, result);
        if (result.fate == Fate::branched) put_aside(index, item, result);
        const auto match = context_.matches.find(item.match);
        if (match != context_.matches.end()) result.head = match->second.head;
        plan_.results.push_back(std::move(result));
    }

    AppendPlan finish() {
        std::set<MatchId> told;
        for (const Promotion& promotion : plan_.promotions)
            if (told.insert(promotion.match).second)
                plan_.branches_changed.push_back({promotion.match, ++plan_.head});
        return std::move(plan_);
    }

  private:
    AppendResult decide(const AppendItem& item);
    AppendResult decide_known(const AppendItem& item, const KnownEntry& known);
    AppendResult decide_place(const AppendItem& item);
    void limit_branches(const AppendItem& item, AppendResult& result) const;
    void join(std::size_t index, const AppendItem& item, AppendResult& result);
    void put_aside(std::size_t index, const AppendItem& item, AppendResult& result);
    void move_head(MatchId match, EntryNumber number, const Hash& hash);
    void promote(MatchId match, const Hash& hash);
    void promote_followers(MatchId match);
    void promote_up_to(MatchId match, const Hash& last);
    std::uint32_t branch_number(const AppendItem& item);

    AppendContext context_;
    std::unordered_multimap<Hash, Hash, HashOfHash> after_;  ///< of `beside`, by predecessor
    AppendPlan plan_;
};

AppendResult Planner::decide(const AppendItem& item) {
    if (!context_.matches.contains(item.match))
        return refused(Cause::unknown_match,
                       fmt::format("match {} is not known here; the desk must create it first",
                                   to_text(item.match)));
    if (const auto known = context_.known.find(item.id); known != context_.known.end())
        return decide_known(item, known->second);
    if (item.number == 0 || item.number > most_entries)
        return refused(Cause::full, fmt::format("entry number {} is outside 1 to {}", item.number,
                                                most_entries));
    return decide_place(item);
}

AppendResult Planner::decide_known(const AppendItem& item, const KnownEntry& known) {
    if (known.match != item.match || known.hash != item.hash)
        return refused(
            Cause::id_used,
            fmt::format("entry id {} was used before with another content", to_text(item.id)));
    // Kept beside the record once, it may fit now.
    if (known.branch != 0 && context_.beside.contains(item.hash) &&
        decide_place(item).fate == Fate::appended)
        return appended();
    AppendResult result;
    result.fate = Fate::already_had;
    const KnownEntry& now = context_.known.at(item.id);
    result.position = now.position;
    result.branch = now.branch;
    return result;
}

AppendResult Planner::decide_place(const AppendItem& item) {
    const MatchContext& at = context_.matches.at(item.match);
    // Whoever sends it: as long as nothing is here that it could follow, the record has a gap.
    if (item.epoch >= at.head.epoch && item.number > at.head.last + 1 &&
        item.previous != at.head.hash && !context_.beside.contains(item.previous))
        return gap(at.head.last + 1);
    const auto claim = claim_of(at, item);
    const MatchHead& head = claim ? claim->head : at.head;
    if (std::string why = may_not_write(head, item); !why.empty()) return branched(std::move(why));
    if (follows(head, item)) return appended();
    promote_up_to(item.match, item.previous);
    if (follows(at.head, item)) return appended();
    return branched(fmt::format("does not follow the stored entry {}", item.number - 1));
}

void Planner::limit_branches(const AppendItem& item, AppendResult& result) const {
    const std::size_t entries = context_.matches.at(item.match).beside.entries;
    if (entries < most_branch_entries) return;
    result = refused(
        Cause::full,
        fmt::format("match {} has {} entries beside its record, no more are kept; look which "
                    "device sends them and withdraw it at the desk",
                    to_text(item.match), entries));
}

void Planner::join(std::size_t index, const AppendItem& item, AppendResult& result) {
    MatchContext& at = context_.matches.at(item.match);
    if (auto claim = claim_of(at, item)) {
        at.head = claim->head;
        plan_.claims.push_back(std::move(*claim));
    }
    if (context_.known.contains(item.id)) {
        promote(item.match, item.hash);
        result.position = context_.known.at(item.id).position;
    } else {
        result.position = ++plan_.head;
        context_.known[item.id] = {item.match, item.hash, result.position, 0};
        plan_.entries.push_back(index);
        move_head(item.match, item.number, item.hash);
    }
    promote_followers(item.match);
}

void Planner::put_aside(std::size_t index, const AppendItem& item, AppendResult& result) {
    MatchContext& at = context_.matches.at(item.match);
    result.position = ++plan_.head;
    result.branch = branch_number(item);
    ++at.beside.entries;
    context_.known[item.id] = {item.match, item.hash, result.position, result.branch};
    context_.beside[item.hash] = {item.id,    item.match,    item.device,
                                  item.epoch, item.number,   item.previous,
                                  item.hash,  result.branch, result.position};
    after_.emplace(item.previous, item.hash);
    plan_.branches.push_back(index);
    plan_.beside[item.match] = at.beside;
}

void Planner::move_head(MatchId match, EntryNumber number, const Hash& hash) {
    MatchHead& head = context_.matches.at(match).head;
    head.last = number;
    head.hash = hash;
    plan_.heads[match] = head;
}

/// Moves what lies beside the record into it.
void Planner::promote(MatchId match, const Hash& hash) {
    const BranchEntry entry = context_.beside.at(hash);
    plan_.promotions.push_back({match, entry.id, entry.branch, entry.position, ++plan_.head});
    context_.known[entry.id] = {match, entry.hash, plan_.head, 0};
    context_.beside.erase(hash);
    BranchCount& beside = context_.matches.at(match).beside;
    --beside.entries;
    plan_.beside[match] = beside;
    move_head(match, entry.number, entry.hash);
}

/// The gap is closed: what was kept beside the record and continues it now joins it. Of two that
/// would fit neither is taken: the writer's next entry says which it meant.
void Planner::promote_followers(MatchId match) {
    while (true) {
        const MatchHead& head = context_.matches.at(match).head;
        std::vector<Hash> fitting;
        for (auto [it, end] = after_.equal_range(head.hash); it != end; ++it) {
            const auto entry = context_.beside.find(it->second);
            if (entry != context_.beside.end() && entry->second.match == match &&
                continues(head, entry->second))
                fitting.push_back(it->second);
        }
        if (fitting.size() != 1) return;
        promote(match, fitting.front());
    }
}

/// The writer goes on behind `last`, so it means the chain that leads from the head to there.
void Planner::promote_up_to(MatchId match, const Hash& last) {
    const MatchHead head = context_.matches.at(match).head;
    std::vector<Hash> chain;
    Hash hash = last;
    while (hash != head.hash) {
        const auto entry = context_.beside.find(hash);
        if (entry == context_.beside.end() || entry->second.match != match ||
            entry->second.device != head.writer || entry->second.epoch != head.epoch ||
            chain.size() == most_entries)
            return;
        chain.push_back(hash);
        hash = entry->second.previous;
    }
    // Each must have the next number; the hashes say so already, unless a device made them up.
    EntryNumber number = head.last;
    for (auto it = chain.rbegin(); it != chain.rend(); ++it)
        if (context_.beside.at(*it).number != ++number) return;
    for (auto it = chain.rbegin(); it != chain.rend(); ++it) promote(match, *it);
}

/// An entry goes on with the branch of the one that it follows. Any other forks off anew: the
/// branch that there is may have been ruled already, and nobody would look at this one.
std::uint32_t Planner::branch_number(const AppendItem& item) {
    const BranchKey key{item.match, item.device, item.epoch};
    const auto before = context_.beside.find(item.previous);
    if (before != context_.beside.end() && key == key_of(before->second))
        return before->second.branch;
    std::uint32_t& branches = context_.matches.at(item.match).beside.branches;
    const auto found = context_.branches.find(key);
    if (found != context_.branches.end() && branches >= most_forks) return found->second;
    return context_.branches[key] = ++branches;
}

}  // namespace

const char* EpochClaim::reason() const noexcept {
    return how == How::first ? "sent the first entry"
                             : "went on where the record ends, in an epoch whose grant is lost";
}

std::string EpochClaim::detail() const {
    return fmt::format("epoch {}, from entry {}: {}", head.epoch, from, reason());
}

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

bool extends(const MatchHead& head, const AppendItem& item) noexcept {
    return head.epoch != 0 && item.epoch == head.epoch && item.device == head.writer &&
           (item.grant.nil() || item.grant == head.grant) && item.number <= most_entries &&
           follows(head, item);
}

Status has_begun() {
    return Status::failed(StatusCode::conflict, "the record of the match has entries already",
                          "open another match for the other teams");
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
    next.recovered = false;
    return next;
}

}  // namespace courthand::server
