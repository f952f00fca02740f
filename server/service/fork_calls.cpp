#include "server/service/fork_calls.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "server/venue/alert_message.h"
#include "wire/message_limits.h"

namespace courthand::server::service {

namespace {

static_assert(2 * ForkCalls::most_shown * wire::most_entry_bytes <= 2 * 1024 * 1024,
              "both sides fit one message");

Status no_fork() {
    return Status::failed(StatusCode::not_found, "this alert is about no forked record",
                          "refresh the list of alerts");
}

DeviceNames names_of(const std::vector<auth::Device>& devices) {
    DeviceNames names;
    for (const auth::Device& device : devices) names[device.who.device] = device.name;
    return names;
}

void fill(const std::string& bytes, DeviceId device, ServerTime stored, const DeviceNames& names,
          v1::ForkEntry& out) {
    out.mutable_entry()->set_data(bytes);
    out.set_stored_us(venue::microseconds(stored));
    if (const auto name = names.find(device); name != names.end())
        out.set_device_name(name->second);
}

/// "entries 57 to 63 of Tablet 1": what the table is to enter again.
std::string words_about(const std::vector<FeedItem>& branch, const DeviceNames& names) {
    if (branch.empty()) return "nothing is left to enter";
    const auto name = names.find(branch.front().device);
    const std::string whose =
        name == names.end() || name->second.empty() ? std::string{"another device"} : name->second;
    if (branch.size() == 1) return fmt::format("entry {} of {}", branch.front().number, whose);
    return fmt::format("entries {} to {} of {}", branch.front().number, branch.back().number,
                       whose);
}

}  // namespace

Result<std::vector<FeedItem>> ForkCalls::entries_of(const alerts::BranchOfMatch& place) const {
    FeedQuery query;
    query.tournament = parts_.tournament;
    query.matches = {place.match};
    std::vector<FeedItem> found;
    for (;;) {
        auto page = parts_.matches.read_feed(query);
        if (!page.ok()) return page.status();
        const bool last = page->items.size() < query.most;
        if (!page->items.empty()) query.after = page->items.back().position;
        for (FeedItem& item : page->items)
            if (item.kind == FeedItem::Kind::branch && item.branch == place.branch && item.bytes)
                found.push_back(std::move(item));
        if (last) break;
    }
    std::sort(found.begin(), found.end(), [](const FeedItem& a, const FeedItem& b) {
        return std::tie(a.number, a.position) < std::tie(b.number, b.position);
    });
    return found;
}

Status ForkCalls::add_record(MatchKey key, const DeviceNames& names,
                             v1::ShowForkResponse& out) const {
    const EntryNumber first = out.first_seq();
    const auto record = parts_.matches.read_record(key, first - 1, most_shown);
    if (!record.ok()) return record.status();
    const auto stored = parts_.matches.match(key);
    if (!stored.ok()) return stored.status();
    for (const StoredEntry& entry : *record)
        fill(*entry.bytes, entry.device, entry.stored_at, names, *out.add_record());
    const EntryNumber shown = first - 1 + static_cast<EntryNumber>(record->size());
    out.set_record_more(stored->head.last > shown ? stored->head.last - shown : 0);
    return Status::fine();
}

Result<v1::ShowForkResponse> ForkCalls::show(const v1::ShowForkRequest& request) const {
    const auto place = alerts::branch_of(request.alert_id());
    if (!place) return no_fork();
    const auto branch = entries_of(*place);
    if (!branch.ok()) return branch.status();
    v1::ShowForkResponse response;
    parts_.stamp.fill(*response.mutable_header());
    if (branch->empty()) return response;
    response.set_first_seq(branch->front().number);
    const auto devices = parts_.enrolments.devices();
    if (!devices.ok()) return devices.status();
    const DeviceNames names = names_of(*devices);
    const std::size_t shown = std::min(branch->size(), most_shown);
    for (std::size_t i = 0; i < shown; ++i) {
        const FeedItem& item = (*branch)[i];
        fill(*item.bytes, item.device, item.stored_at, names, *response.add_branch());
    }
    response.set_branch_more(static_cast<std::uint32_t>(branch->size() - shown));
    const Status read = add_record({parts_.tournament, place->match}, names, response);
    if (!read.ok()) return read;
    return response;
}

Result<ForkCalls::Decision> ForkCalls::decision(const v1::SettleForkRequest& request) const {
    const auto place = alerts::branch_of(request.alert_id());
    if (!place) return no_fork();
    if (request.choice() != v1::FORK_CHOICE_RECORD_STANDS &&
        request.choice() != v1::FORK_CHOICE_ENTER_AGAIN)
        return Status::failed(StatusCode::invalid, "choice: there is none",
                              "say whether the record stands or the entries beside it are to be "
                              "entered again");
    if (!wire::fits(request.note(), longest_note))
        return Status::failed(
            StatusCode::invalid, "note: it is too long or holds special keys",
            fmt::format("keep it within {} bytes, without special keys", longest_note));
    Decision decision{request.choice() == v1::FORK_CHOICE_ENTER_AGAIN, request.note()};
    if (!decision.enter_again) return decision;
    const auto branch = entries_of(*place);
    if (!branch.ok()) return branch.status();
    const auto devices = parts_.enrolments.devices();
    if (!devices.ok()) return devices.status();
    const std::string which = words_about(*branch, names_of(*devices));
    decision.note = request.note().empty() ? which : which + ": " + request.note();
    return decision;
}

}  // namespace courthand::server::service
