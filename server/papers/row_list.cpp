#include "server/papers/row_list.h"

namespace courthand::server::papers {
namespace {

constexpr double row_height = 5.4;
constexpr double heading_height = 8;
/// On either side of a cell.
constexpr double gap = 1;

}  // namespace

void RowList::make_room(double height) {
    const Box all = paper_.room();
    if (begun_ && y_ + height <= all.y + all.height) return;
    paper_.turn_to(title_, Paper::Turn::upright);
    begun_ = true;
    shaded_ = false;
    double x = paper_.room().x;
    y_ = paper_.room().y;
    for (const ListColumn& column : columns_) {
        paper_.write({x + gap, y_, column.width - 2 * gap, row_height}, column.title,
                     {7.5, true, column.align});
        x += column.width;
    }
    y_ += row_height;
    paper_.line(paper_.room().x, y_, x, y_, 0.3);
}

double RowList::page_height() const {
    return begun_ ? paper_.room().height - row_height : 0;
}

void RowList::heading(const std::string& text, std::size_t rows) {
    make_room(heading_height + row_height);
    const double all = heading_height + static_cast<double>(rows) * row_height;
    if (all <= page_height()) make_room(all);
    paper_.write({paper_.room().x, y_ + 1.5, paper_.room().width, heading_height - 2}, text,
                 {10, true});
    y_ += heading_height;
    shaded_ = false;
}

void RowList::row(const std::vector<std::string>& cells) {
    make_room(row_height);
    double x = paper_.room().x;
    if (shaded_) paper_.fill({x, y_, paper_.room().width, row_height}, 0.94);
    shaded_ = !shaded_;
    for (std::size_t i = 0; i < columns_.size() && i < cells.size(); ++i) {
        const ListColumn& column = columns_[i];
        paper_.write({x + gap, y_, column.width - 2 * gap, row_height}, cells[i],
                     {8, column.bold, column.align});
        x += column.width;
    }
    y_ += row_height;
}

}  // namespace courthand::server::papers
