#include "venue/event_record.h"

#include <fmt/format.h>

#include <variant>

#include "courthand/event/fold.h"
#include "wire/event_entry.h"

namespace courthand::venue {

namespace {

std::string unreadable(event::FactNumber fact, const wire::Unreadable& why) {
    return fmt::format(
        "Fact {} of the tournament's record cannot be read ({}). This program is older than the "
        "one that wrote it: update it.",
        fact, why.text());
}

std::string broken(event::FactNumber fact, const std::string& why) {
    return fmt::format(
        "The tournament's record from the server is damaged at fact {}: {}. Nothing after it is "
        "shown; tell whoever runs the server to put the database back from a backup.",
        fact, why);
}

}  // namespace

v1::WatchRecordRequest EventRecord::request() const {
    v1::WatchRecordRequest request;
    if (!chain_) return request;
    request.set_after(chain_->head().seq);
    request.set_after_hash(wire::to_bytes(chain_->head().hash));
    return request;
}

std::optional<std::string> EventRecord::take(const v1::WatchRecordResponse& news) {
    const bool was_whole = whole_;
    if (news.anew()) {
        *this = {};
        news_ = true;
    }
    for (const v1::TournamentEntryBytes& kept : news.facts()) {
        auto fault = take(kept);
        news_ = true;
        if (fault) {
            whole_ = false;
            return fault;
        }
    }
    for (const event::FactNumber fact : news.erased())
        if (words_.erase(fact) != 0) news_ = true;
    whole_ = state_.last() >= news.last();
    if (whole_ != was_whole) news_ = true;
    return std::nullopt;
}

std::optional<std::string> EventRecord::take(const v1::TournamentEntryBytes& kept) {
    const event::FactNumber number = state_.last() + 1;
    auto read = wire::read_event_entry(kept.data());
    if (const auto* why = std::get_if<wire::Unreadable>(&read)) return unreadable(number, *why);
    const auto& entry = std::get<wire::ReadEventEntry>(read);
    // The first fact says which tournament this is; the others must be of it.
    wire::Chain next = chain_ ? *chain_ : wire::Chain{entry.header().match_id};
    if (const auto fault = next.append(entry.header(), entry.hash()))
        return broken(number, fault->message);
    if (const auto fault = wire::beside_broken(entry, kept)) return broken(number, fault->text());
    chain_ = next;
    event::fold_in(state_, entry.fact());
    ids_.push_back(entry.header().entry_id.bytes());
    if (kept.has_beside()) words_.emplace(number, kept.beside().text());
    return std::nullopt;
}

EventBook EventRecord::book() {
    EventBook book;
    book.state = std::make_shared<const event::TournamentState>(state_);
    book.words = std::make_shared<const EventBook::Words>(words_);
    book.ids = std::make_shared<const EventBook::Ids>(ids_);
    book.whole = whole_;
    news_ = false;
    return book;
}

}  // namespace courthand::venue
