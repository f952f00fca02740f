// The tournament's record at a seat: takes what the server sends, checks that it is one unbroken
// chain, and folds it. Knows no network. Not thread-safe.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "courthand/v1/tournament_service.pb.h"
#include "venue/event_book.h"
#include "wire/chain.h"

namespace courthand::venue {

class EventRecord {
  public:
    /// What a watch asks for: everything after what is here.
    [[nodiscard]] v1::WatchRecordRequest request() const;

    /// What is wrong with a response, for a person; nothing: all of it was taken. Of one that is
    /// wrong all before the fault was.
    [[nodiscard]] std::optional<std::string> take(const v1::WatchRecordResponse& news);

    /// Something has been taken that the last book did not have.
    [[nodiscard]] bool has_news() const noexcept { return news_; }
    /// The whole record is here, as far as the server has said.
    [[nodiscard]] bool whole() const noexcept { return whole_; }
    /// A copy: the record goes its own way.
    [[nodiscard]] EventBook book();

  private:
    [[nodiscard]] std::optional<std::string> take(const v1::TournamentEntryBytes& kept);

    event::TournamentState state_;
    EventBook::Words words_;
    EventBook::Ids ids_;
    std::optional<wire::Chain> chain_;  ///< none: there is no fact yet
    bool whole_ = false;
    bool news_ = false;
};

}  // namespace courthand::venue
