#include "script/fact_writer.h"

#include "script/fact_lines.h"
#include "script/lines_by_hand.h"
#include "script/written.h"

namespace courthand::script {
namespace {

template <class Kind, class Value>
std::string value_text(const Part&, const Field<Kind, Value>&, const Value& value) {
    if constexpr (Choice<Value>)
        return std::string{choice_word(value)};
    else
        return written(value);
}
template <class Kind>
std::string value_text(const Part& part, const Field<Kind, Jersey>&, Jersey jersey) {
    return jersey.worn() || part.word.empty() ? written(jersey) : std::string{part.word};
}
template <class Kind>
std::string value_text(const Part&, const Field<Kind, std::uint8_t>& field, std::uint8_t kept) {
    return std::to_string(field.bounds.said(kept));
}

template <class Kind>
std::string part_text(const Part& part, const Kind& fact) {
    if (part.field.empty()) return std::string{part.word};
    std::string out;
    for_each_field<Kind>([&](const auto& field, std::size_t) {
        if (field.name == part.field) out = value_text(part, field, fact.*field.member);
    });
    return out;
}

struct LineWriter {
    std::string_view text;

    template <class Kind>
    std::string operator()(const Kind& fact) const {
        if constexpr (said_by_hand<Kind>) {
            return written_by_hand(fact, text);
        } else {
            std::string out{line_of<Kind>.verb};
            for (const Part& part : line_of<Kind>.says) out += ' ' + part_text(part, fact);
            return out;
        }
    }
};

}  // namespace

std::string fact_text(const Fact& fact, std::string_view text) {
    return std::visit(LineWriter{text}, fact);
}

}  // namespace courthand::script
