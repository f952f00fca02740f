// The record of the tournament while more of it is read. Copies what is known only when something
// comes to it, and once however much that is. Not thread-safe.
#pragma once

#include <memory>
#include <span>
#include <utility>
#include <vector>

#include "server/tournament/known_record.h"
#include "wire/chain.h"

namespace courthand::server::tournament {

class RecordDraft {
  public:
    /// Begins where `known` ends.
    RecordDraft(TournamentId tournament, KnownRecord known);

    /// A page of the store that begins with the last fact that is known, if there is one; true when
    /// there was more in it. Another fact in the place of that one, or none, tells that the
    /// database was put back.
    [[nodiscard]] bool add_page(std::span<const KeptFact> page);
    /// Facts that come next. Stops at the first that cannot: `fault` says why.
    void add(std::span<const KeptFact> facts);

    [[nodiscard]] const FactHead& head() const noexcept { return known_.head; }
    [[nodiscard]] bool went_back() const noexcept { return went_back_; }
    [[nodiscard]] const Status& fault() const noexcept { return fault_; }
    [[nodiscard]] bool changed() const noexcept { return state_ != nullptr; }

    using Numbers = std::vector<std::pair<FactId, FactNumber>>;
    /// Of the facts that were added.
    [[nodiscard]] const Numbers& numbers() const noexcept { return numbers_; }
    /// What is known now; the draft is at its end.
    [[nodiscard]] KnownRecord finish();

  private:
    [[nodiscard]] Status add(const KeptFact& fact);
    void fold_in(const event::Fact& said, ServerTime at);
    void add_words(const KeptFact& fact, bool sealed);

    KnownRecord known_;
    wire::Chain chain_;
    bool went_back_ = false;
    Status fault_;
    Numbers numbers_;
    // Copies; null: nothing has come to it.
    std::shared_ptr<KnownRecord::State> state_;
    std::shared_ptr<KnownRecord::Ids> ids_;
    std::shared_ptr<KnownRecord::Words> words_;
    std::shared_ptr<KnownRecord::Erased> erased_;
};

}  // namespace courthand::server::tournament
