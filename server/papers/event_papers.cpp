#include "server/papers/event_papers.h"

#include <fmt/format.h>

#include "server/papers/bracket_drawing.h"
#include "server/papers/cross_table.h"
#include "server/papers/lists.h"
#include "server/papers/match_words.h"
#include "server/papers/paper.h"
#include "server/papers/play_order.h"

namespace courthand::server::papers {
namespace {

/// As many digits as nobody finds a second time by chance.
constexpr std::size_t digits_of_hash = 16;

PaperHead head_of(const event::TournamentState& state, const std::string& head_hash) {
    PaperHead head;
    if (state.opened) {
        head.event = state.opened->name;
        head.days = days_words(state.opened->first_day, state.opened->last_day);
        if (state.opened->first_day.given()) head.made = event::written(state.opened->first_day);
    } else {
        head.event = "Tournament";
    }
    head.foot =
        fmt::format("as of fact {}, hash {}", state.last(), head_hash.substr(0, digits_of_hash));
    return head;
}

void draw(Paper& paper, const event::TournamentState& state) {
    for (event::DivisionIndex d = 0; d < state.division_count(); ++d) {
        draw_standings(paper, state, d);
        for (std::size_t p = 0; p < state.divisions[d].pools.size(); ++p)
            draw_cross_table(paper, state, d, static_cast<event::PoolIndex>(p));
        draw_brackets(paper, state, d);
        draw_results(paper, state, d);
    }
    draw_order_of_play(paper, state);
    if (paper.pages() > 0) return;
    paper.turn_to("standings", Paper::Turn::upright);
    paper.write(Box{paper.room().x, paper.room().y, 100, 8}, "nothing was drawn yet", {9});
}

}  // namespace

Result<std::string> event_papers(const event::TournamentState& state,
                                 const std::string& head_hash) {
    PaperHead head = head_of(state, head_hash);
    // The first time for the number of sheets: a missing one is seen.
    Paper counted{head};
    draw(counted, state);
    head.sheets = counted.pages();
    Paper paper{head};
    draw(paper, state);
    return paper.end();
}

}  // namespace courthand::server::papers
