// Everything that is published, at one moment: files by name, and which pieces of which pages have
// changed since the moment before.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "server/publish/hall_view.h"
#include "server/publish/page.h"

namespace courthand::server::publish {

struct File {
    std::string bytes;
    std::string type;   ///< "text/html; charset=utf-8"
    std::string etag;   ///< with its quotes; another whenever the bytes are
    std::string stamp;  ///< of a page: another whenever its pieces are
};

/// Never changes; the next one shares the files that stay.
using Files = std::map<std::string, std::shared_ptr<const File>, std::less<>>;

/// A piece that has changed on some pages, for those who are reading them.
struct PieceNews {
    Fragment piece;
    std::vector<std::string> pages;  ///< paths, in order
};

/// Makes the site anew from what is known, at the cost of what has changed. Not thread-safe.
class SiteMaker {
  public:
    struct Made {
        std::shared_ptr<const Files> files;
        std::vector<PieceNews> news;
        /// Pages that are gone, or of which pieces came or went: who reads one takes it anew.
        std::vector<std::string> remade;
        [[nodiscard]] bool changed() const noexcept { return !news.empty() || !remade.empty(); }
    };

    SiteMaker();
    [[nodiscard]] Made make(const HallView& hall);

  private:
    void add_calendars(const HallView& hall, Files& files) const;

    std::uint64_t version_ = 0;  ///< of the record the calendars are made of
    Frame frame_;
    std::map<std::string, Page, std::less<>> pages_;
    Files calendars_;
    Files assets_;  ///< style and script
    std::shared_ptr<const Files> files_ = std::make_shared<const Files>();
};

}  // namespace courthand::server::publish
