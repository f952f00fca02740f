#include "server/venue/ruling_notice.h"

#include <algorithm>
#include <charconv>
#include <utility>

#include "courthand/rules/reason.h"
#include "courthand/v1/sync.pb.h"
#include "server/domain/record_start.h"
#include "wire/fact_convert.h"
#include "wire/state_view.h"

namespace courthand::server::venue {

namespace {

std::string hash_field(const std::string& bytes) {
    const Hash hash = hash_of(bytes);
    return {hash.begin(), hash.end()};
}

v1::RulingNotice ruling_of(const alerts::Condition& condition, const alerts::LifeEntry& entry) {
    v1::RulingNotice ruling;
    ruling.set_alert_id(entry.id);
    ruling.set_match_id(to_bytes(condition.match.value));
    ruling.set_accepted(entry.accepted);
    ruling.set_reason(condition.code);
    if (condition.team) ruling.set_team(wire::to_proto(*condition.team));
    ruling.set_note(entry.note);
    const alerts::Evidence& evidence = condition.evidence;
    if (!evidence.entries.empty()) ruling.set_seq(evidence.entries.front());
    if (!evidence.raw.empty() && !evidence.raw.front().empty())
        ruling.set_entry_hash(hash_field(evidence.raw.front()));
    return ruling;
}

EntryId id_of(const std::string& words) {
    const Hash hash = hash_of(words);
    EntryId id;
    std::copy_n(hash.begin(), id.value.bytes.size(), id.value.bytes.begin());
    return id;
}

std::string name_of(const alerts::LifeEntry& entry) {
    return entry.id + " " + std::to_string(entry.number);
}

FeedNotice word_to_servers(const alerts::Condition& condition, const alerts::LifeEntry& entry) {
    FeedNotice word;
    word.kind = FeedItem::Kind::venue;
    word.match = condition.match;
    word.id = id_of("alert " + name_of(entry));
    word.bytes = std::to_string(entry.number) + " " + entry.id;
    return word;
}

}  // namespace

std::optional<AlertMoved> alert_moved(const FeedItem& item) {
    if (item.kind != FeedItem::Kind::venue || !item.bytes) return std::nullopt;
    const std::string& words = *item.bytes;
    AlertMoved moved;
    const char* const end = words.data() + words.size();
    const auto [stop, error] = std::from_chars(words.data(), end, moved.number);
    if (error != std::errc{} || stop == end || *stop != ' ') return std::nullopt;
    moved.id.assign(stop + 1, end);
    return moved;
}

std::vector<FeedNotice> notices_of(const alerts::Alert& alert, const alerts::LifeEntry& entry) {
    const alerts::Condition& condition = alert.condition;
    const bool of_a_verdict = reason_of(condition.code) && !condition.match.nil() && condition.team;
    const bool for_the_table = of_a_verdict || condition.kind == alerts::Kind::record_forked;
    std::vector<FeedNotice> notices{word_to_servers(condition, entry)};
    if (entry.what != alerts::LifeEntry::What::ruled || !for_the_table) return notices;
    FeedNotice notice;
    notice.kind = FeedItem::Kind::ruling;
    notice.match = condition.match;
    notice.id = id_of("ruling " + name_of(entry));
    notice.bytes = ruling_of(condition, entry).SerializeAsString();
    notices.insert(notices.begin(), std::move(notice));
    return notices;
}

}  // namespace courthand::server::venue
