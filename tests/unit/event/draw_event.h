// Facts of a tournament drawn by their description (event/fact_fields.h): a new kind is drawn
// without a change here. The seed is fixed, so that a failure can be repeated.
#pragma once

#include <array>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "courthand/event/fact_fields.h"

namespace courthand::event::testing {

/// Draws values within the bounds of their fields.
class Dice {
  public:
    explicit Dice(unsigned seed) : random_{seed} {}

    std::uint64_t below(std::uint64_t limit) { return random_() % limit; }
    bool coin() { return below(2) == 1; }

    void draw(const Bounds<std::string>& bounds, std::string& out) {
        if (bounds.may_be_empty && coin()) return;
        if (bounds.letters == Letters::colour) {
            for (int i = 0; i < 6; ++i) out += "0123456789abcdefABCDEF"[below(22)];
            return;
        }
        constexpr std::string_view word = "abzAZ09-._+/";
        constexpr std::array<std::string_view, 9> any{"a", "Z", " ", "\"", "\\",
                                                      "#", "é", "@", "?"};
        const std::size_t length = 1 + below(8);
        for (std::size_t i = 0; i < length; ++i) {
            if (bounds.letters == Letters::word)
                out += word[below(word.size())];
            else
                out += any[below(any.size())];
        }
    }
    template <Count Value>
    void draw(const Bounds<Value>& bounds, Value& out) {
        const std::uint64_t span = std::uint64_t{bounds.most} - bounds.least;
        out = static_cast<Value>(bounds.least +
                                 (span == ~std::uint64_t{0} ? random_() : below(span + 1)));
    }
    template <Choice Value>
    void draw(const Bounds<Value>&, Value& out) {
        out = static_cast<Value>(below(choice_count<Value>));
    }
    void draw(const Bounds<bool>&, bool& out) { out = coin(); }
    void draw(const Bounds<Date>& bounds, Date& out) {
        if (bounds.may_be_none && coin()) return;
        out.days =
            static_cast<std::int32_t>(1 + below(static_cast<std::uint64_t>(latest_date.days)));
    }
    void draw(const Bounds<LocalTime>& bounds, LocalTime& out) {
        if (bounds.may_be_none && coin()) return;
        out.minutes = static_cast<std::int32_t>(
            LocalTime::minutes_of_day +
            below(static_cast<std::uint64_t>(latest_time.minutes - LocalTime::minutes_of_day)));
    }
    void draw(const Bounds<FormatChoice>&, FormatChoice& out) {
        if (coin()) return;
        out.own = true;
        MatchFormat& f = out.format;
        f.all_sets_played = static_cast<std::uint8_t>(below(2));
        f.sets =
            static_cast<std::uint8_t>(f.all_sets_played != 0 ? 1 + below(5) : 1 + 2 * below(3));
        f.points = static_cast<std::uint8_t>(1 + below(most_points));
        f.deciding_points = static_cast<std::uint8_t>(1 + below(most_points));
        f.lead = static_cast<std::uint8_t>(1 + below(most_lead));
        f.cap = static_cast<std::uint8_t>(below(most_points + 1U));
        f.deciding_cap = static_cast<std::uint8_t>(below(most_points + 1U));
        f.start_score = static_cast<std::uint8_t>(below(9));
        f.switch_at = static_cast<std::uint8_t>(below(20));
    }
    void draw(const Bounds<Jersey>&, Jersey& out) {
        if (coin()) out = Jersey{static_cast<std::uint8_t>(below(100))};
    }
    void draw(const Bounds<SetScore>&, SetScore& out) {
        out = {static_cast<std::uint16_t>(below(most_points + 1U)),
               static_cast<std::uint16_t>(below(most_points + 1U))};
    }
    void draw(const Bounds<RecordId>&, RecordId& out) { bytes(out.bytes); }
    void draw(const Bounds<HeadHash>&, HeadHash& out) { bytes(out.bytes); }
    void draw(const Bounds<Source>& bounds, Source& out) {
        if (bounds.may_be_none && coin()) return;
        const auto kind = below(5);
        if (kind == 0) {
            out.kind = Source::Kind::bye;
        } else if (kind == 1) {
            out.kind = coin() ? Source::Kind::better : Source::Kind::worse;
            out.two = {simple(), simple()};
        } else {
            out = simple();
        }
    }
    template <class Item>
    void draw(const Bounds<std::vector<Item>>& bounds, std::vector<Item>& out) {
        const std::size_t spread =
            std::min<std::size_t>(bounds.most_items - bounds.fewest_items, 4);
        out.resize(bounds.fewest_items + below(spread + 1));
        for (Item& item : out) draw(bounds.item, item);
    }

    template <class Kind>
    Fact draw_kind() {
        Kind fact{};
        for_each_field<Kind>([&](const auto& field) { draw(field.bounds, fact.*field.member); });
        return fact;
    }
    /// A fact of the kind with this place in `Fact`.
    Fact draw_fact(std::size_t kind) {
        using Draw = Fact (Dice::*)();
        constexpr auto draws = []<std::size_t... place>(std::index_sequence<place...>) {
            return std::array<Draw, kind_count>{
                &Dice::draw_kind<std::variant_alternative_t<place, Fact>>...};
        }
        (std::make_index_sequence<kind_count>{});
        return (this->*draws[kind])();
    }
    Fact draw_fact() { return draw_fact(below(kind_count)); }

  private:
    Source simple() {
        Source out;
        constexpr std::array kinds{Source::Kind::team, Source::Kind::place, Source::Kind::winner,
                                   Source::Kind::loser};
        out.kind = kinds[below(kinds.size())];
        draw(out.kind == Source::Kind::team ? a_name : a_word, out.of);
        if (out.kind == Source::Kind::place) out.place = static_cast<std::uint8_t>(1 + below(255));
        return out;
    }
    template <std::size_t size>
    void bytes(std::array<std::uint8_t, size>& out) {
        if (coin()) return;
        for (std::uint8_t& byte : out) byte = static_cast<std::uint8_t>(below(256));
    }

    std::mt19937_64 random_;
};

}  // namespace courthand::event::testing
