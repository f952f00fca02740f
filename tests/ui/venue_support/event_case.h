// The record of a tournament from a case of tests/cases/event.
#pragma once

#include <string>
#include <vector>

#include "courthand/event/fact.h"

namespace courthand::tests {

/// The facts of `name`.event, without its expectations. With `until`, those before the first line
/// that is it: "result M1 paper 25-20 25-22". Fails the test when it cannot be read.
[[nodiscard]] std::vector<event::Said> event_case(const std::string& name,
                                                  const std::string& until = {});

/// The facts of a script that stands in the test.
[[nodiscard]] std::vector<event::Said> event_of(const std::string& script);

}  // namespace courthand::tests
