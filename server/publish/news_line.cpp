#include "server/publish/news_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <utility>

namespace courthand::server::publish {
namespace {

std::string data_of(const Fragment& piece) {
    return nlohmann::json{{"id", piece.id}, {"html", piece.html}}.dump();
}

}  // namespace

std::string event_text(std::string_view kind, std::uint64_t number, std::string_view data) {
    std::string text = fmt::format("event: {}\nid: {}\n", kind, number);
    while (true) {
        const std::size_t end = data.find('\n');
        text += fmt::format("data: {}\n", data.substr(0, end));
        if (end == std::string_view::npos) return text + "\n";
        data.remove_prefix(end + 1);
    }
}

void NewsLine::put(std::string text, std::vector<std::string> pages) {
    std::sort(pages.begin(), pages.end());
    bytes_ += text.size();
    items_.push_back({std::make_shared<const std::string>(std::move(text)), std::move(pages)});
    ++next_;
    while (items_.size() > most_items || (bytes_ > most_bytes && items_.size() > 1)) {
        bytes_ -= items_.front().text->size();
        items_.pop_front();
        ++oldest_;
    }
}

void NewsLine::add(const SiteMaker::Made& made) {
    const std::scoped_lock lock{mutex_};
    for (const PieceNews& news : made.news)
        put(event_text("piece", next_, data_of(news.piece)), news.pages);
    if (!made.remade.empty()) put(event_text("anew", next_, "{}"), made.remade);
}

NewsLine::Next NewsLine::next(std::string_view page, std::uint64_t seen) const {
    const std::scoped_lock lock{mutex_};
    const std::uint64_t newest = next_ - 1;
    if (seen + 1 < oldest_ || seen > newest)
        return {std::make_shared<const std::string>(event_text("anew", newest, "{}")), newest};
    for (std::uint64_t number = seen + 1; number < next_; ++number) {
        const Item& item = items_[number - oldest_];
        if (std::binary_search(item.pages.begin(), item.pages.end(), page, std::less<>{}))
            return {item.text, number};
    }
    return {nullptr, newest};
}

std::uint64_t NewsLine::last() const {
    const std::scoped_lock lock{mutex_};
    return next_ - 1;
}

}  // namespace courthand::server::publish
