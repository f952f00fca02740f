// What has changed on the pages, in order, for those who are reading them: server-sent events as
// the HTML Living Standard has them. Holds the last of it only; who was away longer takes his page
// anew. Thread-safe.
#pragma once

#include <cstdint>
#include <deque>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "server/publish/site.h"

namespace courthand::server::publish {

class NewsLine {
  public:
    /// Items that are held: some minutes of a hall of 32 courts, and far below the memory of a
    /// phone page that comes back.
    static constexpr std::size_t most_items = 2048;
    /// Bytes of all items together; the oldest go first.
    static constexpr std::size_t most_bytes = std::size_t{8} * 1024 * 1024;

    /// `first`: the number of the first item; another at each start of a server, so that a reader
    /// from before it is seen to have missed something.
    explicit NewsLine(std::uint64_t first) : next_{first}, oldest_{first} {}

    void add(const SiteMaker::Made& made);

    /// The next event for a reader of this page after item `seen`.
    struct Next {
        std::shared_ptr<const std::string> text;  ///< null: nothing new for this page
        std::uint64_t seen = 0;                   ///< where to go on
    };
    [[nodiscard]] Next next(std::string_view page, std::uint64_t seen) const;
    /// The number of the last item.
    [[nodiscard]] std::uint64_t last() const;

  private:
    struct Item {
        std::shared_ptr<const std::string> text;
        std::vector<std::string> pages;  ///< sorted
    };
    void put(std::string text, std::vector<std::string> pages);

    mutable std::mutex mutex_;
    std::uint64_t next_;    ///< number of the next item
    std::uint64_t oldest_;  ///< number of the first that is held
    std::deque<Item> items_;
    std::size_t bytes_ = 0;
};

/// An event of this kind as its bytes, with the number it is asked again by; `data` of any lines.
[[nodiscard]] std::string event_text(std::string_view kind, std::uint64_t number,
                                     std::string_view data);

}  // namespace courthand::server::publish
