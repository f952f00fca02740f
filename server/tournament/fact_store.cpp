#include "server/tournament/fact_store.h"

#include <fmt/format.h>

#include <set>

#include "courthand/v1/tournament_service.pb.h"

namespace courthand::server::tournament {

namespace {

constexpr std::size_t most_salt_bytes = 32;

bool too_long(const BesideWords& words) {
    return words.salt.size() > most_salt_bytes || words.text.size() > most_beside_bytes;
}

}  // namespace

Status fits(const FactHead& seen, std::span<const KeptFact> facts) {
    const auto refused = [](std::string message, std::string cure) {
        return Status::failed(StatusCode::invalid, std::move(message), std::move(cure));
    };
    if (facts.empty()) return refused("no fact was given", "send one at least");
    if (facts.size() > most_facts_per_append)
        return refused(fmt::format("{} facts are more than one act may add", facts.size()),
                       fmt::format("send {} at most", most_facts_per_append));
    if (seen.number > most_facts - facts.size())
        return refused(fmt::format("the record of this tournament is full ({} facts)", most_facts),
                       "go on in a new tournament");
    std::set<FactId> ids;
    FactNumber number = seen.number;
    for (const KeptFact& fact : facts) {
        const bool is_new = ids.insert(fact.id).second;
        if (fact.number != ++number || fact.id.nil() || !is_new || !fact.bytes)
            return refused(
                fmt::format("fact {} does not continue the record at {}", fact.number, seen.number),
                "number the facts one behind the other and give each an id");
        if (fact.bytes->size() > most_fact_bytes)
            return refused(fmt::format("fact {} has {} bytes", fact.number, fact.bytes->size()),
                           fmt::format("make it shorter than {}", most_fact_bytes));
        if (fact.beside && too_long(*fact.beside))
            return refused(fmt::format("the words beside fact {} are too long", fact.number),
                           fmt::format("write {} bytes at most", most_beside_bytes));
    }
    return Status::fine();
}

Status id_taken() {
    return Status::failed(StatusCode::conflict, "the id of this fact stands for another one",
                          "give each fact an id of its own");
}

Status fits_erasing(std::span<const FactNumber> facts) {
    if (facts.size() <= most_facts_per_append) return Status::fine();
    return Status::failed(
        StatusCode::invalid,
        fmt::format("the words of {} facts are more than one request may erase", facts.size()),
        fmt::format("ask for {} at most, then for the rest", most_facts_per_append));
}

FeedNotice grown() {
    FeedNotice notice;
    notice.kind = FeedItem::Kind::tournament;
    notice.id = EntryId{new_uuid()};
    return notice;
}

FeedNotice erased(std::span<const FactNumber> facts) {
    v1::WordsErased words;
    words.mutable_facts()->Add(facts.begin(), facts.end());
    FeedNotice notice = grown();
    notice.bytes = words.SerializeAsString();
    return notice;
}

std::vector<FactNumber> erased_in(const FeedItem& item) {
    v1::WordsErased words;
    if (item.kind != FeedItem::Kind::tournament || !item.bytes ||
        !words.ParseFromString(*item.bytes))
        return {};
    return {words.facts().begin(), words.facts().end()};
}

}  // namespace courthand::server::tournament
