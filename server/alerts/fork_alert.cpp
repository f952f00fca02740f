#include "server/alerts/fork_alert.h"

#include <charconv>
#include <string_view>

namespace courthand::server::alerts {

namespace {

constexpr std::size_t id_characters = 36;

std::string between_the_parts() {
    return "/" + std::string{row_of(Kind::record_forked).word} + "/branch";
}

}  // namespace

std::optional<BranchOfMatch> branch_of(const AlertId& id) {
    const std::string between = between_the_parts();
    if (id.size() <= id_characters || id.compare(id_characters, between.size(), between) != 0)
        return std::nullopt;
    const auto match = uuid_from_text(std::string_view{id}.substr(0, id_characters));
    const char* const end = id.data() + id.size();
    BranchOfMatch found;
    const auto [stop, error] =
        std::from_chars(id.data() + id_characters + between.size(), end, found.branch);
    if (!match || error != std::errc{} || stop != end || found.branch == 0) return std::nullopt;
    found.match = MatchId{*match};
    return found;
}

}  // namespace courthand::server::alerts
