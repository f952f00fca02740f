#include "said_fact.h"

#include <algorithm>

#include "courthand/match/fact_fields.h"

namespace courthand::client {

namespace {

/// Reads one field out of what was said; false when it cannot be meant.
class Reader {
  public:
    Reader(const QVariantMap& said, const Acting& table) : said_{said}, table_{table} {}

    template <class Field, class Value>
    [[nodiscard]] bool read(const Field& field, Value& value) const {
        const auto at = said_.constFind(
            QString::fromUtf8(field.name.data(), static_cast<qsizetype>(field.name.size())));
        return at != said_.cend() && take(*at, field.bounds, value);
    }

  private:
    [[nodiscard]] bool take(const QVariant& said, Bounds<Team>, Team& team) const {
        team = table_.team_on(said.toBool());
        return true;
    }
    [[nodiscard]] bool take(const QVariant& said, Bounds<Jersey> bounds, Jersey& jersey) const {
        jersey = jersey_of(said.toInt());
        return jersey.worn() || bounds.may_be_none;
    }
    [[nodiscard]] bool take(const QVariant& said, Bounds<LiberoBox>, LiberoBox& box) const {
        box.number = jersey_of(said.toInt());
        box.mark = box.number.worn() ? LiberoBox::Mark::number : LiberoBox::Mark::none;
        return true;
    }
    [[nodiscard]] bool take(const QVariant& said, Bounds<std::uint8_t> bounds,
                            std::uint8_t& number) const {
        const int wanted = said.toInt();
        number = bounds.kept(static_cast<std::uint8_t>(wanted));
        return wanted >= bounds.least && wanted <= bounds.most;
    }
    template <Choice Value>
    [[nodiscard]] bool take(const QVariant& said, Bounds<Value> bounds, Value& choice) const {
        const std::string word = said.toString().toStdString();
        const auto& words = choices<Value>;
        const auto at = std::find(words.begin(), words.end(), word);
        choice = static_cast<Value>(at - words.begin());
        return at != words.end() && bounds.allows(choice);
    }
    /// What no sheet says by itself: a format, a score, a reason.
    template <class Value>
    [[nodiscard]] bool take(const QVariant&, Bounds<Value>, Value&) const {
        return false;
    }

    const QVariantMap& said_;
    const Acting& table_;
};

template <RegularKind Kind>
std::optional<Fact> fact_of(const Reader& reader) {
    Kind kind{};
    bool whole = true;
    for_each_field<Kind>([&](const auto& field, auto) {
        whole = whole && reader.read(field, kind.*(field.member));
    });
    return whole ? std::optional<Fact>{kind} : std::nullopt;
}

}  // namespace

std::optional<Fact> fact_said(const QString& kind, const QVariantMap& said, const Acting& table) {
    const std::string name = kind.toStdString();
    const Reader reader{said, table};
    std::optional<Fact> fact;
    for_each_kind([&]<class Kind>(std::type_identity<Kind>) {
        if constexpr (RegularKind<Kind>)
            if (described<Kind>.name == name) fact = fact_of<Kind>(reader);
    });
    return fact;
}

}  // namespace courthand::client
