// Results of a program that measures once and long, in the form in which Google Benchmark writes
// its own, so that one table is made of both.
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

namespace courthand::bench {

class ResultFile {
  public:
    using Values = std::vector<std::pair<std::string, double>>;

    /// `name` as in "venue/memory"; names of values say their unit.
    void add(std::string name, Values values);
    /// Nothing when the path is empty. Throws std::runtime_error when it cannot be written.
    void write(const std::filesystem::path& path) const;

  private:
    std::vector<std::pair<std::string, Values>> results_;
};

}  // namespace courthand::bench
