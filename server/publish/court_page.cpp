#include "server/publish/court_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "courthand/event/pages.h"
#include "server/publish/html.h"
#include "server/publish/match_rows.h"

namespace courthand::server::publish {
namespace {

using event::MatchRef;

std::string team_html(const std::string& name, std::uint32_t sets, std::uint32_t points, bool begun,
                      bool serves) {
    std::string html = fmt::format("<tr><th scope=\"row\">{}{}</th>", escaped(name),
                                   serves ? " <span class=\"serves\">serves</span>" : "");
    if (begun) html += fmt::format("<td class=\"sets\">{}</td><td>{}</td>", sets, points);
    return html + "</tr>";
}

/// "25-20 22-25", of the sets that are over.
std::string finished_words(const CourtNow& now) {
    std::string words;
    for (const Points& set : now.finished)
        words += fmt::format("{}{}-{}", words.empty() ? "" : " ", set.first, set.second);
    return words;
}

std::string match_html(const CourtNow& now) {
    if (now.match.empty()) return "<p>No match.</p>";
    const bool begun = now.set != 0;
    std::string html = fmt::format("<p>{}: {}</p><table><caption class=\"unseen\">Score</caption>",
                                   escaped(now.match), escaped(now.stage));
    if (begun)
        html += fmt::format(
            "<thead><tr><th scope=\"col\"><span class=\"unseen\">Team</span></th>"
            "<th scope=\"col\">Sets</th><th scope=\"col\">{}</th></tr></thead>",
            now.over ? "Last set" : fmt::format("Set {}", now.set));
    html += "<tbody>";
    html += team_html(now.first, now.sets.first, now.score.first, begun,
                      now.serving == CourtNow::Serving::first);
    html += team_html(now.second, now.sets.second, now.score.second, begun,
                      now.serving == CourtNow::Serving::second);
    html += "</tbody></table>";
    if (!now.finished.empty()) html += fmt::format("<p><small>{}</small></p>", finished_words(now));
    return html;
}

}  // namespace

std::vector<MatchRef> matches_on(const HallView& hall, std::uint16_t court) {
    std::vector<MatchRef> found;
    for (const MatchRef ref : hall.order) {
        const auto& place = hall.event->match(ref).placement;
        if (place && place->court == court) found.push_back(ref);
    }
    return found;
}

Fragment court_fragment(const CourtNow& now) {
    std::string id = fmt::format("court-{}", now.court);
    std::string html = fmt::format(
        "<section class=\"court\" id=\"{}\"><h2><a href=\"court-{}.html\">Court {}</a></h2>{}"
        "</section>",
        id, now.court, now.court, match_html(now));
    return {std::move(id), std::move(html)};
}

Page courts_page(const HallView& hall) {
    Page page{"index.html", "Courts now", {}};
    for (const CourtNow& now : hall.courts) page.fragments.push_back(court_fragment(now));
    if (page.fragments.empty())
        page.fragments.push_back({"no-courts", "<p id=\"no-courts\">No court is open yet.</p>"});
    return page;
}

std::vector<Page> court_pages(const HallView& hall) {
    std::vector<Page> pages;
    for (const auto& [number, court] : hall.event->courts) {
        Page page{court_path(number), event::court_title(number, court), {}};
        const auto now = std::find_if(hall.courts.begin(), hall.courts.end(),
                                      [n = number](const CourtNow& c) { return c.court == n; });
        if (now != hall.courts.end()) page.fragments.push_back(court_fragment(*now));
        page.fragments.push_back(plan_fragment(*hall.event));
        page.fragments.push_back(match_table(*hall.event, fmt::format("day-of-court-{}", number),
                                             "Matches on this court", matches_on(hall, number)));
        page.fragments.push_back(
            {"calendar", fmt::format("<p id=\"calendar\"><a href=\"court-{}.ics\">Calendar of this "
                                     "court</a></p>",
                                     number)});
        pages.push_back(std::move(page));
    }
    return pages;
}

}  // namespace courthand::server::publish
