#include "server/papers/paper.h"

#include <cairo-pdf.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

namespace courthand::server::papers {
namespace {

constexpr double points_per_mm = 72 / 25.4;
// ISO 216, A4.
constexpr double short_side = 210;
constexpr double long_side = 297;
/// Most printers leave 5 mm blank; the rest is for a hole punch and a thumb.
constexpr double margin = 12;
constexpr double head_height = 15;
constexpr double foot_height = 7;

/// Fonts of deploy/packages/run.txt.
constexpr const char* family = "Noto Sans, DejaVu Sans";

struct Closer {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
    void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
    void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
    void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
    void operator()(PangoLayout* layout) const { g_object_unref(layout); }
    void operator()(PangoContext* context) const { g_object_unref(context); }
    void operator()(PangoFontMap* map) const { g_object_unref(map); }
};
template <class Thing>
using Owned = std::unique_ptr<Thing, Closer>;

cairo_status_t take_bytes(void* out, const unsigned char* bytes, unsigned int size) {
    static_cast<std::string*>(out)->append(reinterpret_cast<const char*>(bytes), size);
    return CAIRO_STATUS_SUCCESS;
}

PangoAlignment alignment(Align align) {
    if (align == Align::left) return PANGO_ALIGN_LEFT;
    return align == Align::right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_CENTER;
}

}  // namespace

struct Paper::Parts {
    std::string bytes;
    Owned<cairo_surface_t> surface;
    Owned<cairo_t> cairo;
    Owned<PangoFontMap> fonts;
    Owned<PangoContext> context;

    Parts() {
        surface.reset(cairo_pdf_surface_create_for_stream(
            take_bytes, &bytes, short_side * points_per_mm, long_side * points_per_mm));
        cairo.reset(cairo_create(surface.get()));
        fonts.reset(pango_cairo_font_map_new());
        // A point is a point: units of a PDF are 1/72 inch.
        pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(fonts.get()), 72);
        context.reset(pango_font_map_create_context(fonts.get()));
        const Owned<cairo_font_options_t> options{cairo_font_options_create()};
        // Paper has no pixels to fit letters to.
        cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
        cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
        pango_cairo_context_set_font_options(context.get(), options.get());
        pango_context_set_language(context.get(), pango_language_from_string("en"));
    }

    [[nodiscard]] Owned<PangoLayout> layout(double width, std::string_view text,
                                            const Style& style) const {
        Owned<PangoLayout> made{pango_layout_new(context.get())};
        const Owned<PangoFontDescription> font{pango_font_description_from_string(family)};
        pango_font_description_set_size(font.get(), static_cast<int>(style.points * PANGO_SCALE));
        if (style.bold) pango_font_description_set_weight(font.get(), PANGO_WEIGHT_BOLD);
        pango_layout_set_font_description(made.get(), font.get());
        pango_layout_set_text(made.get(), text.data(), static_cast<int>(text.size()));
        pango_layout_set_width(made.get(), static_cast<int>(width * points_per_mm * PANGO_SCALE));
        pango_layout_set_alignment(made.get(), alignment(style.align));
        // A name in another script keeps its place.
        pango_layout_set_auto_dir(made.get(), FALSE);
        return made;
    }

    [[nodiscard]] static double height_of(PangoLayout* layout) {
        int height = 0;
        pango_layout_get_size(layout, nullptr, &height);
        return height / (points_per_mm * PANGO_SCALE);
    }

    void show(PangoLayout* layout, double x, double y, double grey) const {
        cairo_set_source_rgb(cairo.get(), grey, grey, grey);
        cairo_move_to(cairo.get(), x * points_per_mm, y * points_per_mm);
        pango_cairo_show_layout(cairo.get(), layout);
    }
};

Paper::Paper(PaperHead head) : head_{std::move(head)}, parts_{std::make_unique<Parts>()} {
    cairo_surface_t* const file = parts_->surface.get();
    cairo_pdf_surface_set_metadata(file, CAIRO_PDF_METADATA_TITLE, head_.event.c_str());
    cairo_pdf_surface_set_metadata(file, CAIRO_PDF_METADATA_CREATOR, "Courthand");
    // Without one it would be the moment of drawing.
    const std::string made = head_.made.empty() ? "2000-01-01" : head_.made;
    cairo_pdf_surface_set_metadata(file, CAIRO_PDF_METADATA_CREATE_DATE,
                                   (made + "T00:00:00Z").c_str());
}

Paper::~Paper() = default;

void Paper::turn_to(std::string_view title, Turn turn) {
    if (pages_ > 0) cairo_show_page(parts_->cairo.get());
    ++pages_;
    turn_ = turn;
    const bool across = turn == Turn::across;
    cairo_pdf_surface_set_size(parts_->surface.get(),
                               (across ? long_side : short_side) * points_per_mm,
                               (across ? short_side : long_side) * points_per_mm);
    write_head_and_foot(title);
}

Box Paper::room() const {
    const bool across = turn_ == Turn::across;
    return {margin, margin + head_height, (across ? long_side : short_side) - 2 * margin,
            (across ? short_side : long_side) - 2 * margin - head_height - foot_height};
}

void Paper::write_head_and_foot(std::string_view title) {
    const Box all = room();
    write({all.x, margin, all.width / 2, 7}, head_.event, {14, true});
    write({all.x, margin + 7, all.width / 2, 4.5}, head_.days, {8, false, Align::left, 0.3});
    write({all.x + all.width / 2, margin, all.width / 2, 7}, title, {12, true, Align::right});
    line(all.x, all.y - 2, all.x + all.width, all.y - 2, 0.4);
    const double foot = all.y + all.height + 2;
    const std::string sheet = head_.sheets == 0
                                  ? fmt::format("sheet {}", pages_)
                                  : fmt::format("sheet {} of {}", pages_, head_.sheets);
    write({all.x, foot, all.width - 40, 4.5}, head_.foot, {7, false, Align::left, 0.3});
    write({all.x + all.width - 40, foot, 40, 4.5}, sheet, {7, false, Align::right, 0.3});
}

void Paper::write(const Box& box, std::string_view text, const Style& style) {
    const auto layout = parts_->layout(box.width, text, style);
    pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
    pango_layout_set_ellipsize(layout.get(), PANGO_ELLIPSIZE_END);
    const double height = Parts::height_of(layout.get());
    parts_->show(layout.get(), box.x, box.y + (box.height - height) / 2, style.grey);
}

double Paper::write_lines(const Box& box, std::string_view text, const Style& style, bool measure) {
    const auto layout = parts_->layout(box.width, text, style);
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    if (!measure) parts_->show(layout.get(), box.x, box.y, style.grey);
    return Parts::height_of(layout.get());
}

void Paper::line(double x, double y, double to_x, double to_y, double width) {
    cairo_t* const cairo = parts_->cairo.get();
    cairo_set_source_rgb(cairo, 0, 0, 0);
    cairo_set_line_width(cairo, width * points_per_mm);
    cairo_move_to(cairo, x * points_per_mm, y * points_per_mm);
    cairo_line_to(cairo, to_x * points_per_mm, to_y * points_per_mm);
    cairo_stroke(cairo);
}

void Paper::frame(const Box& box, double width) {
    cairo_t* const cairo = parts_->cairo.get();
    cairo_set_source_rgb(cairo, 0, 0, 0);
    cairo_set_line_width(cairo, width * points_per_mm);
    cairo_rectangle(cairo, box.x * points_per_mm, box.y * points_per_mm, box.width * points_per_mm,
                    box.height * points_per_mm);
    cairo_stroke(cairo);
}

void Paper::fill(const Box& box, double grey) {
    cairo_t* const cairo = parts_->cairo.get();
    cairo_set_source_rgb(cairo, grey, grey, grey);
    cairo_rectangle(cairo, box.x * points_per_mm, box.y * points_per_mm, box.width * points_per_mm,
                    box.height * points_per_mm);
    cairo_fill(cairo);
}

Result<std::string> Paper::end() {
    parts_->cairo.reset();
    cairo_surface_finish(parts_->surface.get());
    if (const cairo_status_t status = cairo_surface_status(parts_->surface.get());
        status != CAIRO_STATUS_SUCCESS)
        return Status::failed(
            StatusCode::internal,
            fmt::format("the paper cannot be drawn: {}", cairo_status_to_string(status)),
            "look at the memory that is left, and ask for it again");
    return std::move(parts_->bytes);
}

}  // namespace courthand::server::papers
