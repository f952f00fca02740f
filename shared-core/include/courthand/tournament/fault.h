// What is wrong with an input of the tournament's arithmetic, where, and how to put it right.
#pragma once

#include <string>
#include <vector>

namespace courthand::tournament {

/// An expected failure is a value: wrong input is told, never guessed at.
struct Fault {
    std::string place;    ///< "line 12", "match 3", "pool A"
    std::string message;  ///< what is wrong
    std::string cure;     ///< what to do about it
    friend bool operator==(const Fault&, const Fault&) = default;
};

using Faults = std::vector<Fault>;

}  // namespace courthand::tournament
