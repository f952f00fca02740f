// How a seat stands with the server, and how a request to it may end.
#pragma once

#include <cstdint>
#include <functional>
#include <string>

namespace courthand::venue {

enum class LinkState : std::uint8_t { connecting, live, lost, refused };

/// `lost` keeps trying by itself; `refused` needs a person (device revoked, wrong seat).
struct Link {
    LinkState state = LinkState::connecting;
    std::string words;  ///< what a person should know; empty while live
    friend bool operator==(const Link&, const Link&) = default;
};

/// The end of a request: done, or a sentence with the cause and the cure.
struct Outcome {
    bool done = true;
    std::string problem;

    [[nodiscard]] static Outcome ok() { return {}; }
    [[nodiscard]] static Outcome refused(std::string why) { return {false, std::move(why)}; }
};

using Answer = std::function<void(const Outcome&)>;

}  // namespace courthand::venue
