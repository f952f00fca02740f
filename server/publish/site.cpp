#include "server/publish/site.h"

#define XXH_INLINE_ALL
#include <fmt/format.h>
#include <xxhash.h>

#include <algorithm>
#include <utility>

#include "server/papers/match_words.h"
#include "server/publish/assets.h"
#include "server/publish/calendar.h"
#include "server/publish/court_page.h"
#include "server/publish/division_page.h"
#include "server/publish/match_rows.h"
#include "server/publish/team_page.h"

namespace courthand::server::publish {
namespace {

constexpr const char* html_type = "text/html; charset=utf-8";
constexpr const char* calendar_type = "text/calendar; charset=utf-8";

std::string hash_of(const std::string& bytes) {
    const XXH128_hash_t hash = XXH3_128bits(bytes.data(), bytes.size());
    return fmt::format("{:016x}{:016x}", hash.high64, hash.low64);
}

std::shared_ptr<const File> file_of(std::string bytes, std::string type, std::string stamp = {}) {
    std::string etag = fmt::format("\"{}\"", hash_of(bytes));
    return std::make_shared<const File>(
        File{std::move(bytes), std::move(type), std::move(etag), std::move(stamp)});
}

std::shared_ptr<const File> file_of(const Page& page, const Frame& frame) {
    std::string pieces = page.title;
    for (const Fragment& fragment : page.fragments) pieces += fragment.html;
    std::string stamp = hash_of(pieces);
    std::string text = document(page, frame, stamp);
    return file_of(std::move(text), html_type, std::move(stamp));
}

Frame frame_of(const event::TournamentState& state) {
    if (!state.opened) return {"Tournament", ""};
    return {state.opened->name,
            papers::days_words(state.opened->first_day, state.opened->last_day)};
}

std::map<std::string, Page, std::less<>> pages_of(const HallView& hall) {
    std::map<std::string, Page, std::less<>> pages;
    const auto add = [&](Page page) {
        std::string path = page.path;
        pages.emplace(std::move(path), std::move(page));
    };
    add(courts_page(hall));
    add(teams_page(hall));
    add(pools_page(hall));
    add(brackets_page(hall));
    for (Page& page : court_pages(hall)) add(std::move(page));
    for (Page& page : team_pages(hall)) add(std::move(page));
    return pages;
}

bool same_pieces(const Page& x, const Page& y) {
    return x.title == y.title &&
           std::equal(x.fragments.begin(), x.fragments.end(), y.fragments.begin(),
                      y.fragments.end(),
                      [](const Fragment& a, const Fragment& b) { return a.id == b.id; });
}

/// Pieces by id and text: one that stands on several pages is told once.
using Changes = std::map<std::pair<std::string, std::string>, std::vector<std::string>>;

void note_changes(const Page& was, const Page& is, Changes& changes) {
    for (std::size_t i = 0; i < is.fragments.size(); ++i)
        if (is.fragments[i].html != was.fragments[i].html)
            changes[{is.fragments[i].id, is.fragments[i].html}].push_back(is.path);
}

}  // namespace

SiteMaker::SiteMaker() {
    for (const Asset& asset : assets())
        assets_.emplace(asset.path, file_of(asset.text, asset.type));
}

void SiteMaker::add_calendars(const HallView& hall, Files& files) const {
    const event::TournamentState& state = *hall.event;
    const auto add = [&](std::string path, const std::string& name,
                         const std::vector<event::MatchRef>& matches) {
        std::string text = calendar(hall, frame_.event + ": " + name, matches);
        const auto was = calendars_.find(path);
        if (was != calendars_.end() && was->second->bytes == text)
            files.emplace(std::move(path), was->second);
        else
            files.emplace(std::move(path), file_of(std::move(text), calendar_type));
    };
    for (std::size_t t = 0; t < state.teams.size(); ++t) {
        const auto team = static_cast<event::TeamIndex>(t);
        auto matches = matches_of(hall, team);
        const auto work = work_of(hall, team);
        matches.insert(matches.end(), work.begin(), work.end());
        add(fmt::format("team-{}.ics", t + 1), state.teams[t].name, matches);
    }
    for (const auto& [number, court] : state.courts)
        add(fmt::format("court-{}.ics", number), fmt::format("court {}", number),
            matches_on(hall, number));
    for (const auto& [number, person] : state.persons)
        if (person.role == event::Role::official)
            add(fmt::format("official-{}.ics", number), fmt::format("official {}", number),
                matches_worked_by(hall, number));
}

SiteMaker::Made SiteMaker::make(const HallView& hall) {
    Made made;
    const bool first = files_->empty();
    const bool event_changed = first || hall.version != version_;
    const Frame frame = frame_of(*hall.event);
    const bool frame_changed = frame != frame_;
    frame_ = frame;
    auto files = std::make_shared<Files>(assets_);
    auto pages = pages_of(hall);
    Changes changes;
    for (const auto& [path, page] : pages) {
        const auto was = pages_.find(path);
        if (was != pages_.end() && !frame_changed && was->second == page) {
            files->emplace(path, files_->at(path));
            continue;
        }
        files->emplace(path, file_of(page, frame_));
        if (was != pages_.end() && !frame_changed && same_pieces(was->second, page))
            note_changes(was->second, page, changes);
        else
            made.remade.push_back(path);
    }
    if (event_changed) {
        Files calendars;
        add_calendars(hall, calendars);
        calendars_ = std::move(calendars);
        version_ = hall.version;
    }
    files->insert(calendars_.begin(), calendars_.end());
    for (const auto& [path, page] : pages_)
        if (pages.count(path) == 0) made.remade.push_back(path);
    for (auto& [piece, where] : changes)
        made.news.push_back({{piece.first, piece.second}, std::move(where)});
    pages_ = std::move(pages);
    files_ = std::move(files);
    made.files = files_;
    return made;
}

}  // namespace courthand::server::publish
