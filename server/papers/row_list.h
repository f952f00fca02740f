// A list of rows under titles that are said again on each page.
#pragma once

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

    /// A heading, which is never the last line of its page.
    void heading(const std::string& text);
    void row(const std::vector<std::string>& cells);

  private:
    void make_room(double height);

    Paper& paper_;
    std::string title_;
    std::vector<ListColumn> columns_;
    double y_ = 0;
    bool begun_ = false;
    bool shaded_ = false;
};

}  // namespace courthand::server::papers
