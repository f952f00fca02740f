#include "server/tournament/sealed_act.h"

#include <fmt/format.h>
#include <openssl/rand.h>

#include <array>
#include <cstdlib>
#include <variant>

#include "wire/event_convert.h"
#include "wire/event_entry.h"

namespace courthand::server::tournament {

namespace {

std::string new_salt() {
    std::array<unsigned char, wire::salt_bytes> salt{};
    // Without random numbers nothing of a venue is safe: no code, no key, no certificate.
    if (RAND_bytes(salt.data(), static_cast<int>(salt.size())) != 1) std::abort();
    return {salt.begin(), salt.end()};
}

v1::TournamentEntry entry_of(TournamentId tournament, const Act& act, const Act::Said& said) {
    v1::TournamentEntry entry;
    entry.set_tournament_id(to_bytes(tournament.value));
    entry.set_entry_id(to_bytes(said.id.value));
    entry.set_device_id(to_bytes(act.device.value));
    entry.set_device_time_us(act.device_time_us);
    entry.set_author(act.author);
    wire::to_proto(said.said.fact, *entry.mutable_fact());
    return entry;
}

/// Seals the words with the entry, when there are any.
std::optional<BesideWords> put_beside(const std::string& text, v1::TournamentEntry& entry) {
    if (text.empty()) return std::nullopt;
    v1::BesideWords words;
    words.set_salt(new_salt());
    words.set_text(text);
    const wire::Hash hash = wire::beside_hash(words);
    entry.set_beside_hash(hash.data(), hash.size());
    return BesideWords{words.salt(), words.text()};
}

Status out_of_bounds(std::size_t fact, const std::string& why) {
    return Status::failed(StatusCode::invalid, fmt::format("fact {} of the act: {}", fact, why),
                          "correct it and act again");
}

}  // namespace

wire::Head wire_head(TournamentId tournament, const FactHead& head) {
    if (head.number != 0) return {head.number, head.hash};
    wire::Hasher hasher;
    return wire::genesis(wire::Uuid{tournament.value.bytes}, hasher);
}

Result<std::vector<KeptFact>> seal(TournamentId tournament, const FactHead& head, const Act& act) {
    wire::Hasher hasher;
    wire::Head end = wire_head(tournament, head);
    std::vector<KeptFact> facts;
    for (const Act::Said& said : act.facts) {
        if (!wire::fits(said.said.words, most_beside_bytes))
            return out_of_bounds(
                facts.size() + 1,
                fmt::format("its words must be a text of up to {} bytes without special keys",
                            most_beside_bytes));
        v1::TournamentEntry entry = entry_of(tournament, act, said);
        KeptFact fact;
        fact.beside = put_beside(said.said.words, entry);
        const auto sealed = wire::seal_event(std::move(entry), end, hasher);
        if (const auto* why = std::get_if<wire::Unreadable>(&sealed))
            return out_of_bounds(facts.size() + 1, why->text());
        const auto& made = std::get<wire::ReadEventEntry>(sealed);
        end = made.head();
        fact.id = said.id;
        fact.number = end.seq;
        fact.device = act.device;
        fact.hash = made.hash();
        fact.bytes = made.shared_bytes();
        facts.push_back(std::move(fact));
    }
    return facts;
}

}  // namespace courthand::server::tournament
