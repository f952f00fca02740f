#include "server/publish/page.h"

#include <fmt/format.h>

#include "server/publish/html.h"

namespace courthand::server::publish {
namespace {

struct Way {
    const char* path;
    const char* name;
};
constexpr Way ways[] = {{"index.html", "Courts now"},
                        {"teams.html", "Teams"},
                        {"pools.html", "Pools"},
                        {"brackets.html", "Brackets"}};

std::string ways_of(const Page& page) {
    std::string html;
    for (const Way& way : ways)
        html += fmt::format("<li><a href=\"{}\"{}>{}</a></li>", way.path,
                            page.path == way.path ? " aria-current=\"page\"" : "", way.name);
    return html;
}

}  // namespace

std::string document(const Page& page, const Frame& frame, const std::string& stamp) {
    std::string pieces;
    for (const Fragment& fragment : page.fragments) pieces += fragment.html + "\n";
    return fmt::format(
        R"(<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title} - {event}</title>
<link rel="stylesheet" href="page.css">
<script src="page.js" defer></script>
</head>
<body data-page="{path}" data-stamp="{stamp}">
<header>
<p class="event">{event} <span>{days}</span></p>
<nav aria-label="Pages"><ul>{ways}</ul></nav>
</header>
<main>
<h1>{title}</h1>
{pieces}</main>
<footer>
<p id="link" role="status">As of the moment this page was opened.</p>
<p>For times and courts the desk has the last word.</p>
</footer>
</body>
</html>
)",
        fmt::arg("title", escaped(page.title)), fmt::arg("event", escaped(frame.event)),
        fmt::arg("days", escaped(frame.days)), fmt::arg("path", escaped(page.path)),
        fmt::arg("stamp", stamp), fmt::arg("ways", ways_of(page)), fmt::arg("pieces", pieces));
}

}  // namespace courthand::server::publish
