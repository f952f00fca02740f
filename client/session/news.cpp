#include "client/session/news.h"

#include <charconv>

#include <fmt/format.h>

namespace courthand::client {

std::optional<std::pair<std::string, std::string>> fresh_news(const Journal& journal,
                                                              const std::string& words) {
    const auto waiting = journal.settings(news_prefix);
    if (waiting.size() >= most_unseen_news) return std::nullopt;
    std::uint32_t last = 0;
    if (!waiting.empty()) {
        const std::string& name = waiting.back().first;
        std::from_chars(name.data() + news_prefix.size(), name.data() + name.size(), last);
    }
    return std::pair{fmt::format("{}{:08}", news_prefix, last + 1), words};
}

std::vector<std::string> unseen_news(const Journal& journal) {
    std::vector<std::string> all;
    for (auto& [name, words] : journal.settings(news_prefix)) all.push_back(std::move(words));
    return all;
}

std::optional<JournalError> forget_news(Journal& journal, const std::string& words) {
    std::vector<std::pair<std::string, std::string>> seen;
    for (const auto& [name, kept] : journal.settings(news_prefix))
        if (kept == words) seen.emplace_back(name, "");
    if (seen.empty()) return std::nullopt;
    if (auto error = journal.store({}, seen)) return error;
    return journal.trim_settings(news_prefix, 0);
}

}  // namespace courthand::client
