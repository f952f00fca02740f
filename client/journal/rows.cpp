#include "client/journal/rows.h"

#include <xxhash.h>

#include <array>

namespace courthand::client {
namespace {

constexpr std::array<std::string_view, 4> words{"waiting", "acknowledged", "on-branch", "refused"};

/// Hashes parts with their lengths, so that moving a byte from one to the next is seen.
class Sealer {
  public:
    explicit Sealer(std::string_view kind) { add(kind); }
    void add(std::string_view part) {
        add(std::uint64_t{part.size()});
        bytes_ += part;
    }
    void add(std::uint64_t number) {
        for (unsigned shift = 0; shift < 64; shift += 8)
            bytes_.push_back(static_cast<char>(number >> shift));
    }
    [[nodiscard]] std::int64_t digest() const noexcept {
        return static_cast<std::int64_t>(XXH64(bytes_.data(), bytes_.size(), 0));
    }

  private:
    std::string bytes_;
};

}  // namespace

std::string_view word(EntryStanding standing) noexcept {
    return words[static_cast<std::size_t>(standing)];
}

EntryStanding standing_of(std::string_view word) noexcept {
    for (std::size_t i = 0; i < words.size(); ++i)
        if (words[i] == word) return static_cast<EntryStanding>(i);
    return EntryStanding::waiting;
}

std::int64_t seal(const JournalEntry& entry) {
    Sealer sealer{"entry"};
    sealer.add(entry.match_id);
    sealer.add(std::uint64_t{entry.epoch});
    sealer.add(std::uint64_t{entry.seq});
    sealer.add(entry.entry_id);
    sealer.add(entry.prev_hash);
    sealer.add(entry.hash);
    sealer.add(entry.bytes);
    return sealer.digest();
}

std::int64_t seal(const KeptSignature& signature) {
    Sealer sealer{"signature"};
    sealer.add(signature.match_id);
    sealer.add(std::uint64_t{signature.seq});
    sealer.add(signature.hash);
    sealer.add(signature.signature);
    return sealer.digest();
}

std::int64_t seal(const StoredMatch& match) {
    Sealer sealer{"match"};
    sealer.add(match.match_id);
    sealer.add(match.sheet);
    return sealer.digest();
}

std::int64_t setting_seal(std::string_view name, std::string_view value) {
    Sealer sealer{"setting"};
    sealer.add(name);
    sealer.add(value);
    return sealer.digest();
}

}  // namespace courthand::client
