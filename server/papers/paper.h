// Pages of paper: A4, with a head and a foot, onto which text, lines and boxes are drawn; a PDF in
// the end. The only place that knows the drawing library.
//
// Lengths are millimetres from the upper left corner. The same drawing gives the same bytes, on the
// same fonts: no clock and no name of a computer comes into it. Not thread-safe.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>

#include "server/store/status.h"

namespace courthand::server::papers {

struct Box {
    double x = 0;
    double y = 0;
    double width = 0;
    double height = 0;
};

enum class Align : unsigned char { left, centre, right };

struct Style {
    double points = 9;
    bool bold = false;
    Align align = Align::left;
    double grey = 0;  ///< 0 black, 1 white
};

/// What stands on every page.
struct PaperHead {
    std::string event;       ///< its name
    std::string days;        ///< its days
    std::string foot;        ///< of what the paper speaks
    std::string made;        ///< an ISO 8601 day for the data of the file, or empty
    std::size_t sheets = 0;  ///< all pages there will be; 0: not known yet
};

class Paper {
  public:
    enum class Turn : unsigned char { upright, across };

    explicit Paper(PaperHead head);
    ~Paper();
    Paper(const Paper&) = delete;
    Paper& operator=(const Paper&) = delete;

    /// Goes to a new page.
    void turn_to(std::string_view title, Turn turn);
    /// Between head, foot and margins of the present page.
    [[nodiscard]] Box room() const;
    [[nodiscard]] std::size_t pages() const noexcept { return pages_; }

    /// On one line in the middle of the box's height; what does not fit ends with an ellipsis.
    void write(const Box& box, std::string_view text, const Style& style);
    /// On as many lines as it takes; answers the height. `measure` draws nothing.
    double write_lines(const Box& box, std::string_view text, const Style& style,
                       bool measure = false);
    void line(double x, double y, double to_x, double to_y, double width = 0.2);
    void frame(const Box& box, double width = 0.2);
    void fill(const Box& box, double grey);

    /// The bytes of the file, or why it could not be drawn; nothing can be drawn any more.
    [[nodiscard]] Result<std::string> end();

  private:
    struct Parts;
    void write_head_and_foot(std::string_view title);

    PaperHead head_;
    std::size_t pages_ = 0;
    Turn turn_ = Turn::upright;
    std::unique_ptr<Parts> parts_;
};

}  // namespace courthand::server::papers
