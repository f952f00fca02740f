#include "venue/csv_lines.h"

#include <algorithm>

namespace courthand::venue {

namespace {

char separator_of(std::string_view file) {
    const auto first = file.substr(0, file.find('\n'));
    const auto commas = std::count(first.begin(), first.end(), ',');
    const auto semicolons = std::count(first.begin(), first.end(), ';');
    const auto tabs = std::count(first.begin(), first.end(), '\t');
    if (semicolons > commas && semicolons >= tabs) return ';';
    return tabs > commas ? '\t' : ',';
}

class Cutter {
  public:
    explicit Cutter(char separator) : separator_(separator) {}

    void take(char c) {
        if (quoted_) {
            if (c == '\n') ++line_;
            if (c == '"')
                quoted_ = false;
            else
                cell_ += c;
            after_quote_ = c == '"';
            return;
        }
        const bool doubled = c == '"' && after_quote_;
        after_quote_ = false;
        if (doubled) cell_ += '"';
        if (c == '"')
            quoted_ = true;
        else if (c == separator_)
            end_cell();
        else if (c == '\n')
            end_line();
        else if (c != '\r')
            cell_ += c;
    }
    void end_line() {
        end_cell();
        const bool empty = current_.cells.size() == 1 && current_.cells.front().empty();
        current_.number = started_;
        if (!empty) lines.push_back(std::move(current_));
        current_ = {};
        started_ = ++line_;
    }
    [[nodiscard]] bool unfinished() const { return !cell_.empty() || !current_.cells.empty(); }

    std::vector<CsvLine> lines;

  private:
    void end_cell() {
        current_.cells.push_back(std::move(cell_));
        cell_.clear();
    }

    char separator_;
    std::string cell_;
    CsvLine current_;
    int line_ = 1;
    int started_ = 1;
    bool quoted_ = false;
    bool after_quote_ = false;
};

}  // namespace

std::vector<CsvLine> csv_lines(std::string_view file, std::size_t most_lines) {
    constexpr std::string_view mark = "\xEF\xBB\xBF";
    if (file.substr(0, mark.size()) == mark) file.remove_prefix(mark.size());
    Cutter cutter(separator_of(file));
    for (const char c : file) {
        if (cutter.lines.size() >= most_lines) return std::move(cutter.lines);
        cutter.take(c);
    }
    if (cutter.unfinished()) cutter.end_line();
    return std::move(cutter.lines);
}

}  // namespace courthand::venue
