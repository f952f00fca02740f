// A standby of a private cluster, that a test may leave behind and promote.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "server/testing/test_database.h"

namespace courthand::server::testing {

/// A copy of a running cluster on a port of its own. Throws std::runtime_error.
class Standby {
  public:
    enum class Follows : std::uint8_t {
        nobody,   ///< behind from the beginning
        primary,  ///< streams, until it is told to stop
    };

    explicit Standby(const PrivateCluster& primary, Follows follows = Follows::nobody);
    /// Stops it.
    ~Standby();
    Standby(const Standby&) = delete;
    Standby& operator=(const Standby&) = delete;

    /// True when it has all that the primary has now.
    [[nodiscard]] bool has_all() const;
    /// What the primary writes does not come here any more, once it follows no longer.
    void stop_following() const;
    [[nodiscard]] bool follows() const;
    void promote() const;
    [[nodiscard]] int port() const noexcept { return port_; }
    /// Of a database of the primary: with this one as the second to be asked.
    [[nodiscard]] std::string beside(const std::string& dsn) const;

  private:
    void control(const std::string& words) const;

    const PrivateCluster& primary_;
    std::filesystem::path folder_;
    int port_ = 0;
};

}  // namespace courthand::server::testing
