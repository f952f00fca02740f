#include "server/service/record_session.h"

#include <algorithm>
#include <span>
#include <utility>

#include "wire/tournament_limits.h"

namespace courthand::server::service {

using tournament::KeptFact;
using tournament::KnownRecord;

RecordSession::RecordSession(RecordWish wish, Parts parts)
    : wish_{wish}, parts_{parts}, sent_{wish.from} {
    const KnownRecord known = parts_.record.known();
    reading_ = known.reading;
    // Who begins is sent no words that are erased; who goes on may have some of before.
    told_ = sent_.number == 0 ? known.erased->size() : 0;
}

RecordSession::Next RecordSession::next(v1::WatchRecordResponse& out) {
    const KnownRecord known = parts_.record.known();
    if (known.reading != std::exchange(reading_, known.reading)) told_ = 0;
    // A page that was read before is sent before the words of it that were erased since.
    if (!page_) {
        if (more_ || known.version != looked_) return Next::read_store;
        if (!tells_erased(known)) return Next::wait;
    }
    out.Clear();
    if (page_) fill_facts(out);
    fill_erased(known, out);
    out.set_last(std::max(known.head.number, sent_.number));
    if (std::exchange(first_, false) || (!more_ && !tells_erased(known))) out.mutable_header();
    return Next::message;
}

bool RecordSession::tells_erased(const KnownRecord& known) const {
    return wish_.with_words && told_ < known.erased->size();
}

void RecordSession::fill_facts(v1::WatchRecordResponse& out) {
    out.set_anew(page_->anew);
    more_ = page_->more;
    std::size_t bytes = 0;
    for (const KeptFact& fact : page_->facts) {
        // The rest is read again: words of it may be erased before it is sent.
        if (bytes >= wire::enough_watched_bytes) {
            more_ = true;
            break;
        }
        *out.add_facts() = to_message(fact, wish_.with_words);
        bytes += fact.bytes->size() + (fact.beside ? fact.beside->text.size() : 0);
        sent_ = {fact.number, fact.hash};
    }
    page_.reset();
}

void RecordSession::fill_erased(const KnownRecord& known, v1::WatchRecordResponse& out) {
    if (!tells_erased(known)) return;
    const auto rest = std::span{*known.erased}.subspan(told_);
    const auto some = rest.first(std::min(rest.size(), wire::most_erased_told));
    out.mutable_erased()->Add(some.begin(), some.end());
    told_ += some.size();
}

Status RecordSession::read_store() {
    // Before the store is read: what comes to it meanwhile is looked for again.
    const KnownRecord known = parts_.record.known();
    Page page;
    Result<bool> goes_on = read_after(page);
    if (!goes_on.ok()) return goes_on.status();
    if (!*goes_on) {
        sent_ = {};
        page = {};
        page.anew = true;
        goes_on = read_after(page);
        if (!goes_on.ok()) return goes_on.status();
    }
    looked_ = known.version;
    more_ = page.more;
    // Nothing new is news to who has not been told anything yet.
    if (first_ || page.anew || !page.facts.empty()) page_ = std::move(page);
    return Status::fine();
}

Result<bool> RecordSession::read_after(Page& page) {
    const std::size_t had = sent_.number == 0 ? 0 : 1;
    const std::size_t most = wire::most_watched_facts + had;
    // The last one that was sent is read once more: another in its place tells that the database
    // was put back, or that the client comes from another one.
    auto facts = parts_.store.read(parts_.tournament,
                                   sent_.number - static_cast<tournament::FactNumber>(had), most);
    if (!facts.ok()) return facts.status();
    if (had != 0) {
        if (facts->empty() || facts->front().number != sent_.number ||
            facts->front().hash != sent_.hash)
            return false;
        facts->erase(facts->begin());
    }
    page.more = facts->size() == wire::most_watched_facts;
    page.facts = *std::move(facts);
    return true;
}

v1::WatchRecordResponse RecordSession::sign_of_life() const {
    v1::WatchRecordResponse out;
    out.mutable_header();
    out.set_last(std::max(parts_.record.known().head.number, sent_.number));
    return out;
}

}  // namespace courthand::server::service
