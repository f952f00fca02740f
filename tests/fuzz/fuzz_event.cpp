// Any text is an event script or an error inside the text; a script survives writing and reading,
// and its facts can be folded, cut anywhere.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "courthand/event/fold.h"
#include "courthand/event_script/event_replay.h"

namespace {

using courthand::event::EventLine;
using courthand::event::EventScript;

void check_fold(const EventScript& script) {
    std::vector<courthand::event::Fact> facts;
    for (const EventLine& line : script.lines)
        if (const auto* said = std::get_if<courthand::event::Said>(&line.content))
            facts.push_back(said->fact);
    courthand::event::TournamentState state;
    for (const auto& fact : facts) courthand::event::fold_in(state, fact);
    if (!(state == courthand::event::fold(facts))) std::abort();
    (void)courthand::event::failures(script);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text{reinterpret_cast<const char*>(data), size};
    const auto read = courthand::event::read_event(text);
    if (const auto* script = std::get_if<EventScript>(&read)) {
        const auto again = courthand::event::read_event(courthand::event::write_event(*script));
        const auto* second = std::get_if<EventScript>(&again);
        // A line that had no blanks between its words may grow longer than a line may be.
        if (second == nullptr &&
            std::get<courthand::ScriptError>(again).message.find("characters") == std::string::npos)
            std::abort();
        if (second != nullptr && !(*second == *script)) std::abort();
        check_fold(*script);
    } else if (std::get<courthand::ScriptError>(read).message.empty()) {
        std::abort();
    }
    return 0;
}
