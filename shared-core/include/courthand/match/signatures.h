// What the signatures in a record stand for.
//
// A signature is of what was recorded when it was given. So it hangs on the order of writing and
// not on the order in which facts count: a correction changes what was signed, be it of the first
// rally, and takes the signatures under the record back.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <span>
#include <vector>

#include "courthand/match/choices.h"
#include "courthand/match/entry.h"
#include "courthand/match/state.h"

namespace courthand {

/// Some of those who sign.
class SignerSet {
  public:
    constexpr SignerSet() = default;
    constexpr SignerSet(std::initializer_list<Signer> signers) {
        for (const Signer signer : signers) add(signer);
    }

    constexpr void add(Signer signer) noexcept { bits_ |= bit(signer); }
    constexpr void remove(Signer signer) noexcept {
        bits_ &= static_cast<std::uint8_t>(~bit(signer));
    }
    [[nodiscard]] constexpr bool has(Signer signer) const noexcept {
        return (bits_ & bit(signer)) != 0;
    }
    [[nodiscard]] constexpr bool empty() const noexcept { return bits_ == 0; }
    friend constexpr bool operator==(SignerSet, SignerSet) = default;

  private:
    static constexpr std::uint8_t bit(Signer signer) noexcept {
        return static_cast<std::uint8_t>(1U << static_cast<unsigned>(signer));
    }

    std::uint8_t bits_ = 0;
    static_assert(choice_count<Signer> <= 8);
};

/// Of each team, its list before the match (FIVB Official Volleyball Rules 2021-2024, rules
/// 27.2.1.1 and 5.2.2).
inline constexpr std::array list_signers{Signer::captain_a, Signer::coach_a, Signer::captain_b,
                                         Signer::coach_b};
/// Under the record after the match, in the order of signing (the same, rules 27.2.3.3, 28.2,
/// 24.3.3 and 23.3.3; the order: memory).
inline constexpr std::array record_signers{Signer::scorer,         Signer::captain_a,
                                           Signer::captain_b,      Signer::assistant_scorer,
                                           Signer::second_referee, Signer::first_referee};
/// Without these a match is not closed: the captains whose teams the result binds, and the referee
/// who answers for it. Common practice, no source.
inline constexpr std::array closing_signers{Signer::captain_a, Signer::captain_b,
                                            Signer::first_referee};

/// Who has yet to sign before the match is closed, in the order of signing.
[[nodiscard]] std::vector<Signer> missing_to_close(SignerSet signed_by);

/// The same with A and B changed over: the desk names the teams of a match in its own order.
[[nodiscard]] SignerSet turned(SignerSet signers) noexcept;

/// The signatures of one record, entry by entry in the order of writing.
class Signatures {
  public:
    Signatures() = default;
    explicit Signatures(std::span<const Record> records);

    void take(const Record& record);

    /// Who has signed a list that still stands as it was signed.
    [[nodiscard]] SignerSet under_lists() const noexcept { return set_of(lists_); }
    /// Who has signed what is recorded now; after the match that is the result. Any entry behind a
    /// signature takes it back but remarks, protests and other signatures, or the taking back of
    /// another signature.
    [[nodiscard]] SignerSet under_record() const noexcept { return set_of(record_); }

  private:
    /// The entry by which each has signed; 0: has not.
    using Given = std::array<EntryNumber, choice_count<Signer>>;

    [[nodiscard]] static SignerSet set_of(const Given& given) noexcept;
    static bool take_away(Given& given, EntryNumber entry) noexcept;
    void take_fact(const Fact& fact);
    void take_changed(const Fact& fact);
    void take_strike(EntryNumber target);
    void note_start(const Fact& fact);
    [[nodiscard]] bool holds_fact(EntryNumber entry) const;
    /// A set stands as begun: lists are signed before it.
    [[nodiscard]] bool begun() const;
    void sign(Signer by);
    void list_changed(Team team) noexcept;
    void lists_from(EntryNumber target) noexcept;

    /// What an entry says from then on.
    enum class Says : std::uint8_t { nothing, begun, other };
    /// A strike or an amendment.
    struct Change {
        EntryNumber by = 0;
        EntryNumber target = 0;
        Says says = Says::nothing;
    };

    EntryNumber last_ = 0;
    std::vector<EntryNumber> starts_;  ///< entries that said, when made, that a set has begun
    std::vector<Change> changes_;      ///< in their order
    /// Corrections, but for facts inserted where they count; ascending.
    std::vector<EntryNumber> without_fact_;
    Given lists_{};
    Given record_{};
    PerTeam<EntryNumber> list_{};  ///< the entries that hold the lists
};

/// Who has signed the result; nobody while the match is not over.
[[nodiscard]] inline SignerSet signed_result(const MatchState& state,
                                             const Signatures& signatures) noexcept {
    return state.set.stage == Stage::match_over ? signatures.under_record() : SignerSet{};
}

}  // namespace courthand
