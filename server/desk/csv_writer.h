// Writes comma-separated values (RFC 4180) that an office program may open: UTF-8 with a byte order
// mark, and no cell that such a program takes for a formula. Pure.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace courthand::server::desk {

/// A text as it may stand in a cell: an apostrophe is put before what a program for tables would
/// compute (= + - @ tab, carriage return), and before what begins as such a guard.
[[nodiscard]] std::string guarded(std::string_view text);
/// Takes that apostrophe away again; any other text stays as it is.
[[nodiscard]] std::string_view unguarded(std::string_view cell);

class CsvWriter {
  public:
    CsvWriter();

    CsvWriter& text(std::string_view cell);
    /// A number of our own needs no guard.
    CsvWriter& number(std::int64_t cell);
    CsvWriter& blank() { return text({}); }
    void end_row();

    [[nodiscard]] const std::string& bytes() const noexcept { return bytes_; }

  private:
    void separate();

    std::string bytes_;
    bool row_begun_ = false;
};

}  // namespace courthand::server::desk
