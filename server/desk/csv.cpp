#include "server/desk/csv.h"

#include <algorithm>
#include <optional>

namespace courthand::server::desk {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// The separator that stands most often outside quotes in the first row; a comma when none does.
char separator_of(std::string_view text) {
    std::size_t commas = 0;
    std::size_t semicolons = 0;
    std::size_t tabs = 0;
    bool quoted = false;
    for (const char c : text) {
        if (c == '"') quoted = !quoted;
        if (quoted) continue;
        if (c == '\n' || c == '\r') break;
        commas += c == ',';
        semicolons += c == ';';
        tabs += c == '\t';
    }
    if (semicolons > commas && semicolons >= tabs) return ';';
    return tabs > commas ? '\t' : ',';
}

class Reader {
  public:
    explicit Reader(std::string_view text) : text_{text}, separator_{separator_of(text)} {}

    std::variant<std::vector<CsvRow>, CsvError> read() {
        std::vector<CsvRow> rows;
        while (!at_end()) {
            CsvRow row{line_, {}};
            if (auto error = read_row(row)) return *error;
            const bool blank = std::all_of(row.cells.begin(), row.cells.end(),
                                           [](const std::string& cell) { return cell.empty(); });
            if (!blank) rows.push_back(std::move(row));
        }
        return rows;
    }

  private:
    [[nodiscard]] bool at_end() const { return place_ == text_.size(); }
    [[nodiscard]] char now() const { return text_[place_]; }
    [[nodiscard]] bool at_row_end() const { return at_end() || now() == '\n' || now() == '\r'; }

    void take_line_end() {
        if (at_end()) return;
        const bool pair = now() == '\r' && place_ + 1 < text_.size() && text_[place_ + 1] == '\n';
        place_ += pair ? 2 : 1;
        ++line_;
    }

    std::optional<CsvError> read_row(CsvRow& row) {
        while (true) {
            if (row.cells.size() == most_cells)
                return CsvError{row.line, "this row has more than 64 cells",
                                "save the list as comma-separated values (CSV)"};
            std::string cell;
            if (auto error = read_cell(cell)) return error;
            row.cells.push_back(std::move(cell));
            if (at_row_end()) break;
            ++place_;  // the separator
        }
        take_line_end();
        return std::nullopt;
    }

    std::optional<CsvError> read_cell(std::string& cell) {
        if (!at_end() && now() == '"') return read_quoted(cell);
        while (!at_row_end() && now() != separator_) {
            if (now() == '"')
                return CsvError{line_, "a quotation mark stands inside a cell without quotes",
                                "put the whole cell in quotes and write each mark in it twice"};
            cell += now();
            ++place_;
        }
        trim(cell);
        return std::nullopt;
    }

    std::optional<CsvError> read_quoted(std::string& cell) {
        const std::uint32_t opened = line_;
        ++place_;
        while (true) {
            if (at_end())
                return CsvError{opened, "a quotation mark is opened here and never closed",
                                "close it, or remove it"};
            const char c = now();
            ++place_;
            // A pair is one line end, counted at its second character.
            if (c == '\n' || (c == '\r' && (at_end() || now() != '\n'))) ++line_;
            if (c != '"') {
                cell += c;
            } else if (!at_end() && now() == '"') {
                cell += '"';
                ++place_;
            } else {
                break;
            }
        }
        if (at_row_end() || now() == separator_) return std::nullopt;
        return CsvError{line_, "something follows a closing quotation mark",
                        "put the whole cell in quotes and write each mark in it twice"};
    }

    static void trim(std::string& cell) {
        const auto blank = [](char c) { return c == ' ' || c == '\t'; };
        while (!cell.empty() && blank(cell.back())) cell.pop_back();
        const auto first = std::find_if_not(cell.begin(), cell.end(), blank);
        cell.erase(cell.begin(), first);
    }

    std::string_view text_;
    char separator_;
    std::size_t place_ = 0;
    std::uint32_t line_ = 1;
};

}  // namespace

std::variant<std::vector<CsvRow>, CsvError> read_csv(std::string_view text) {
    if (text.substr(0, byte_order_mark.size()) == byte_order_mark)
        text.remove_prefix(byte_order_mark.size());
    return Reader{text}.read();
}

}  // namespace courthand::server::desk
