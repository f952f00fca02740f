#include "event_case.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <variant>

#include "courthand/event_script/event_script.h"

namespace courthand::tests {

namespace {

std::vector<event::Said> facts_before(const std::string& text, const std::string& until) {
    const auto read = event::read_event(text);
    std::vector<event::Said> facts;
    if (const auto* wrong = std::get_if<ScriptError>(&read)) {
        ADD_FAILURE() << "line " << wrong->line << ": " << wrong->message;
        return facts;
    }
    for (const event::EventLine& line : std::get<event::EventScript>(read).lines) {
        const auto* const said = std::get_if<event::Said>(&line.content);
        if (said == nullptr) continue;
        if (!until.empty() && event::event_line(*said) == until) return facts;
        facts.push_back(*said);
    }
    if (!until.empty()) ADD_FAILURE() << "the case has no line " << until;
    return facts;
}

}  // namespace

std::vector<event::Said> event_case(const std::string& name, const std::string& until) {
    std::ostringstream text;
    text << std::ifstream{COURTHAND_EVENT_CASES "/" + name + ".event", std::ios::binary}.rdbuf();
    return facts_before(text.str(), until);
}

std::vector<event::Said> event_of(const std::string& script) {
    return facts_before(script, {});
}

}  // namespace courthand::tests
