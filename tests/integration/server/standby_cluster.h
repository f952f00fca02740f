// A PostgreSQL whose commits wait for a standby that there is not.
#pragma once

#include <chrono>
#include <string>

#include "server/testing/test_database.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::testing {

/// A cluster of one's own whose commits may wait for a standby that there is not.
class StandbyCluster {
  public:
    StandbyCluster() { cluster_.start(); }
    [[nodiscard]] std::string dsn() const { return cluster_.dsn(); }
    void lose_standby() const {
        (void)cluster_.administer("alter system set synchronous_standby_names = 'nobody'");
        reload("nobody");
    }
    void give_up_standby() const {
        (void)cluster_.administer("alter system reset synchronous_standby_names");
        reload("");
    }

  private:
    void reload(const std::string& names) const {
        (void)cluster_.administer("select pg_reload_conf()");
        EXPECT_TRUE(testkit::eventually(
            [&] { return cluster_.administer("show synchronous_standby_names") == names; }));
    }

    PrivateCluster cluster_;
};

}  // namespace courthand::server::testing
