// What people do about alerts: durable before it is answered.
#include <utility>

#include "server/venue/alert_desk.h"
#include "server/venue/alert_message.h"
#include "server/venue/ruling_notice.h"

namespace courthand::server::venue {

using alerts::AlertBook;
using alerts::AlertId;
using alerts::LifeEntry;
using alerts::Now;

AlertDesk::Act AlertDesk::act(const AlertId& id, const Decide& decide, const Now& now) {
    Act acted = Status::failed(StatusCode::conflict, "others act on this alert at the same moment",
                               "look at the alert and try again");
    for (int attempt = 0; attempt < most_tries; ++attempt) {
        acted = act_once(id, decide, now);
        if (acted.status().code != StatusCode::conflict) break;
        // What this server meant to do is judged anew by what the other one has kept.
        if (Status read = yield_to_store(id, now); !read.ok()) {
            acted = std::move(read);
            break;
        }
    }
    show();
    board_.tell();
    return acted;
}

AlertDesk::Act AlertDesk::act_once(const AlertId& id, const Decide& decide, const Now& now) {
    const bool looked_up = !knows(id);
    if (looked_up)
        if (Status read = read_back({&id, 1}, now); !read.ok()) return read;
    const Result<Decided> next = decided(id, decide, looked_up);
    if (!next.ok()) return next.status();
    if (Status kept = keep_decided(*next); !kept.ok()) return kept;
    return apply_kept(next->entry, now);
}

Result<AlertDesk::Decided> AlertDesk::decided(const AlertId& id, const Decide& decide,
                                              bool looked_up) {
    const std::scoped_lock lock{mutex_};
    alerts::Acted acted = decide(book_);
    if (!acted.ok()) {
        if (looked_up) book_.let_go(id);
        return acted.status();
    }
    Decided next{outbox_.of(id), *std::move(acted), {}};
    next.notices = notices_of(*book_.find(id), next.entry);
    return next;
}

Status AlertDesk::keep_decided(const Decided& act) {
    if (!act.before.empty()) {
        if (Status kept = store_.append(act.before, {}); !kept.ok()) return kept;
        const std::scoped_lock lock{mutex_};
        outbox_.kept(act.before);
    }
    return store_.append_act(act.entry, act.notices);
}

// It is kept whatever has happened here meanwhile.
AlertDesk::Act AlertDesk::apply_kept(const LifeEntry& entry, const Now& now) {
    {
        const std::scoped_lock lock{mutex_};
        const alerts::Alert* alert = book_.find(entry.id);
        if (alert && alert->life + 1 == entry.number) {
            book_.apply(entry, now);
            ++moves_;
            return to_message(*book_.find(entry.id));
        }
        // Heard of through the feed already.
        if (alert && alert->life >= entry.number && outbox_.of(entry.id).empty())
            return to_message(*alert);
    }
    // The alert has moved on in memory, or was read anew: the store knows both steps in order.
    if (Status read = yield_to_store(entry.id, now); !read.ok()) return read;
    const std::scoped_lock lock{mutex_};
    if (const alerts::Alert* alert = book_.find(entry.id)) return to_message(*alert);
    return Status::failed(StatusCode::unavailable, "the database was put back",
                          "look at the alert and try again");
}

AlertDesk::Act AlertDesk::claim(const AlertId& id, const std::string& by, const Now& now) {
    return act(
        id, [&](const AlertBook& book) { return book.claim(id, by, now); }, now);
}

AlertDesk::Act AlertDesk::acknowledge(const AlertId& id, const std::string& by, const Now& now) {
    return act(
        id, [&](const AlertBook& book) { return book.acknowledge(id, by, now); }, now);
}

AlertDesk::Act AlertDesk::rule(const AlertId& id, bool accept, const std::string& note,
                               const std::string& by, const Now& now) {
    return act(
        id, [&](const AlertBook& book) { return book.rule(id, accept, note, by, now); }, now);
}

AlertDesk::Act AlertDesk::shelve(const AlertId& id, std::chrono::minutes time,
                                 const std::string& note, const std::string& by, const Now& now) {
    return act(
        id, [&](const AlertBook& book) { return book.shelve(id, time, note, by, now); }, now);
}

}  // namespace courthand::server::venue
