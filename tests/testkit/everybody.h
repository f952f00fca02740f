// Tables that play and desks that confirm, by themselves.
#pragma once

#include <gtest/gtest.h>

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <string>
#include <thread>
#include <vector>

#include "client/tables/simulated_desk.h"
#include "client/tables/simulated_table.h"

namespace courthand::testkit {

/// Everybody who plays and confirms, until this goes; what ends with words fails the test.
class Everybody {
  public:
    Everybody() = default;
    ~Everybody() {
        stop_ = true;
        for (std::thread& one : threads_) one.join();
    }
    Everybody(const Everybody&) = delete;
    Everybody& operator=(const Everybody&) = delete;

    /// `folder`: of an enrolled device.
    void table(const std::filesystem::path& folder, std::uint64_t seed, bool signs = false) {
        client::SimulatedTableOptions options;
        options.folder = folder;
        options.pace = 0;
        options.seed = seed;
        options.waits_for_desk = true;
        options.signs = signs;
        threads_.emplace_back(
            [this, options] { EXPECT_EQ(client::run_simulated_table(options, stop_, quiet), ""); });
    }
    void desk(const std::filesystem::path& folder) {
        client::SimulatedDeskOptions options;
        options.folder = folder;
        options.pause = 0.1;
        threads_.emplace_back(
            [this, options] { EXPECT_EQ(client::run_simulated_desk(options, stop_, quiet), ""); });
    }

  private:
    static void quiet(const std::string&) {}
    std::atomic<bool> stop_{false};
    std::vector<std::thread> threads_;
};

}  // namespace courthand::testkit
