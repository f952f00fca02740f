#include "event_script/values_written.h"

#include <fmt/format.h>

#include "script/written.h"

namespace courthand::event {
namespace {

template <std::size_t size>
[[nodiscard]] std::string hex(const std::array<std::uint8_t, size>& bytes) {
    std::string out;
    for (const std::uint8_t byte : bytes) out += fmt::format("{:02x}", byte);
    return out;
}

}  // namespace

std::string value_text(const Bounds<std::string>& bounds, const std::string& value) {
    return bounds.letters == Letters::any ? script::written_text(value) : value;
}
std::string value_text(const Bounds<Date>&, Date value) {
    return written(value);
}
std::string value_text(const Bounds<LocalTime>&, LocalTime value) {
    return written(value);
}

std::string value_text(const Bounds<Source>& bounds, const Source& value) {
    switch (value.kind) {
        case Source::Kind::none:
            return {};
        case Source::Kind::team:
            return script::written_text(value.of);
        case Source::Kind::place:
            return fmt::format("{} of {}", value.place, value.of);
        case Source::Kind::winner:
        case Source::Kind::loser:
            return fmt::format("{} {}", choice_word(value.kind), value.of);
        case Source::Kind::better:
        case Source::Kind::worse:
            return fmt::format("{} {} {}", choice_word(value.kind),
                               value_text(bounds, value.two.at(0)),
                               value_text(bounds, value.two.at(1)));
        case Source::Kind::bye:
            break;
    }
    return "bye";
}

std::string value_text(const Bounds<SetScore>&, SetScore value) {
    return fmt::format("{}-{}", value.first, value.second);
}

std::string value_text(const Bounds<FormatChoice>&, const FormatChoice& value) {
    const MatchFormat& f = value.format;
    return fmt::format(
        "{} {} points {} deciding {} lead {} cap {} deciding-cap {} start {} switch {}",
        f.all_sets_played != 0 ? "sets" : "best-of", f.sets, f.points, f.deciding_points, f.lead,
        f.cap, f.deciding_cap, f.start_score, f.switch_at);
}

std::string value_text(const Bounds<Jersey>&, Jersey value) {
    return script::written(value);
}
std::string value_text(const Bounds<RecordId>&, const RecordId& value) {
    return hex(value.bytes);
}
std::string value_text(const Bounds<HeadHash>&, const HeadHash& value) {
    return hex(value.bytes);
}

}  // namespace courthand::event
