// A page for everyone in the hall, made of pieces that can change one by one under the eyes of a
// reader.
#pragma once

#include <string>
#include <vector>

namespace courthand::server::publish {

/// One element of a page. The same piece may stand on several pages.
struct Fragment {
    std::string id;    ///< of the element, unique on its page: letters, digits and hyphens
    std::string html;  ///< the whole element with that id
    friend bool operator==(const Fragment&, const Fragment&) = default;
};

struct Page {
    std::string path;   ///< "team-4.html": letters, digits, hyphen, one dot; no folder
    std::string title;  ///< "Mill Lane"
    std::vector<Fragment> fragments;
    friend bool operator==(const Page&, const Page&) = default;
};

/// What stands on every page.
struct Frame {
    std::string event;  ///< its name
    std::string days;   ///< "28 to 29 November 2026"
    friend bool operator==(const Frame&, const Frame&) = default;
};

/// The page as a document of HTML in UTF-8. It can be read whole with scripts off.
/// `stamp`: names what its pieces say, by which the script asks whether it was overtaken while it
/// was on its way.
[[nodiscard]] std::string document(const Page& page, const Frame& frame, const std::string& stamp);

}  // namespace courthand::server::publish
