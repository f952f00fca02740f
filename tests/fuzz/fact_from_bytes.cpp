#include "fact_from_bytes.h"

#include "tests/facts/draw_fact.h"

namespace courthand::fuzz {
namespace {

using testing::As;

/// Values in and a little out of reason.
class Drawn {
  public:
    explicit Drawn(Bytes& bytes) : bytes_{bytes} {}

    Team draw(const Bounds<Team>&) { return bytes_.take() % 2 == 0 ? Team::A : Team::B; }
    /// Few numbers, so that they often name somebody; none also where one is required.
    Jersey draw(const Bounds<Jersey>&) {
        const std::uint8_t n = bytes_.below(26);
        return n == 25 ? Jersey::none() : Jersey{n};
    }
    /// From 0 to one beyond what is kept.
    std::uint8_t draw(const Bounds<std::uint8_t>& bounds) {
        return bytes_.below(bounds.kept(bounds.most) + 2U);
    }
    /// Every value, also where the kind allows only the first.
    template <Choice Value>
    Value draw(const Bounds<Value>&) {
        return static_cast<Value>(bytes_.below(static_cast<unsigned>(choice_count<Value>)));
    }
    Reason draw(const Bounds<Reason>&) {
        return static_cast<Reason>(bytes_.below(static_cast<unsigned>(reason_count)));
    }
    LiberoBox draw(const Bounds<LiberoBox>&) {
        const auto mark = draw(Bounds<LiberoBox::Mark>{});
        return {mark, mark == LiberoBox::Mark::number ? jersey() : Jersey::none()};
    }
    Score draw(const Bounds<Score>&) {
        const std::uint8_t a = bytes_.below(40);
        return {a, bytes_.below(40)};
    }
    MatchFormat draw(const Bounds<MatchFormat>&);

    Fact by_hand(As<Roster>);
    Fact by_hand(As<LineUp>);
    Fact by_hand(As<Serve>) {
        const Team whose = team();
        return Serve{whose, jersey()};
    }
    Fact by_hand(As<Substitution>);
    Fact by_hand(As<PositionalFault>) {
        PositionalFault called{team(), {}, {}};
        called.player = jersey();
        called.neighbour = jersey();
        return called;
    }

  private:
    Team team() { return draw(Bounds<Team>{}); }
    Jersey jersey() { return draw(Bounds<Jersey>{}); }

    Bytes& bytes_;
};

Fact Drawn::by_hand(As<Roster>) {
    Roster r{team(), static_cast<std::uint8_t>(6 + bytes_.below(most_players - 5)), {}, {}};
    for (std::uint8_t i = 0; i < r.count; ++i) r.players[i] = Jersey{i};
    r.captain = jersey();
    return r;
}

Fact Drawn::by_hand(As<LineUp>) {
    LineUp sheet{team(), {}, {}, {}};
    const std::uint8_t first = bytes_.below(12);
    const bool odd = bytes_.take() % 8 == 0;
    for (std::uint8_t s = 0; s < players_on_court; ++s)
        sheet.order[s] = odd ? jersey() : Jersey{static_cast<std::uint8_t>(first + s)};
    sheet.liberos = {draw(Bounds<LiberoBox>{}), draw(Bounds<LiberoBox>{})};
    sheet.captain = jersey();
    return sheet;
}

Fact Drawn::by_hand(As<Substitution>) {
    Substitution s{team(), static_cast<std::uint8_t>(bytes_.below(most_pairs + 1)), {}};
    for (std::uint8_t i = 0; i < s.count; ++i) s.pairs[i] = {jersey(), jersey()};
    return s;
}

MatchFormat Drawn::draw(const Bounds<MatchFormat>&) {
    MatchFormat f;
    f.sets = static_cast<std::uint8_t>(1 + bytes_.below(MatchFormat::most_sets + 2));
    f.all_sets_played = bytes_.below(2);
    f.points = static_cast<std::uint8_t>(1 + bytes_.below(30));
    f.deciding_points = static_cast<std::uint8_t>(1 + bytes_.below(25));
    f.lead = static_cast<std::uint8_t>(1 + bytes_.below(3));
    f.cap = bytes_.below(2) == 0 ? std::uint8_t{0}
                                 : static_cast<std::uint8_t>(f.points + bytes_.below(4));
    f.switch_at = bytes_.below(13);
    return f;
}

}  // namespace

Fact fact_from(Bytes& bytes) {
    Drawn drawn{bytes};
    return testing::draw_fact(drawn, bytes.below(static_cast<unsigned>(kind_count)));
}

}  // namespace courthand::fuzz
