// A list of rows under titles that are said again on each page.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "server/papers/paper.h"

namespace courthand::server::papers {

struct ListColumn {
    std::string title;
    double width = 20;
    Align align = Align::left;
    bool bold = false;
};

class RowList {
  public:
    /// `paper` outlives this.
    RowList(Paper& paper, std::string title, std::vector<ListColumn> columns)
        : paper_{paper}, title_{std::move(title)}, columns_{std::move(columns)} {}

    /// A heading and so many rows behind it: on one page where they fit one. It is never the last
    /// line of its page.
    void heading(const std::string& text, std::size_t rows = 1);
    void row(const std::vector<std::string>& cells);

  private:
    void make_room(double height);
    /// What a new page has below the titles of the columns.
    [[nodiscard]] double page_height() const;

    Paper& paper_;
    std::string title_;
    std::vector<ListColumn> columns_;
    double y_ = 0;
    bool begun_ = false;
    bool shaded_ = false;
};

}  // namespace courthand::server::papers
