// A jersey number being typed, figure by figure.
#pragma once

#include <QString>
#include <optional>

#include "courthand/match/jersey.h"

namespace courthand::client {

class TypedNumber {
  public:
    /// Jersey numbers have at most two figures.
    static constexpr qsizetype most_figures = 2;

    [[nodiscard]] const QString& text() const noexcept { return text_; }
    [[nodiscard]] bool empty() const noexcept { return text_.isEmpty(); }
    [[nodiscard]] bool full() const noexcept { return text_.size() == most_figures; }

    /// Anything but 0 to 9, or a third figure, is ignored.
    void digit(int figure) {
        if (figure >= 0 && figure <= 9 && !full()) text_ += QString::number(figure);
    }
    void erase() { text_.chop(1); }
    void clear() { text_.clear(); }

    /// The number typed so far; nothing when none was typed.
    [[nodiscard]] std::optional<Jersey> number() const {
        bool ok = false;
        const int number = text_.toInt(&ok);
        if (!ok) return std::nullopt;
        return Jersey{static_cast<std::uint8_t>(number)};
    }
    /// The same, which is then forgotten.
    [[nodiscard]] std::optional<Jersey> take() {
        const std::optional<Jersey> taken = number();
        text_.clear();
        return taken;
    }

  private:
    QString text_;
};

}  // namespace courthand::client
