#include "tests/bench/result_file.h"

#include <fstream>
#include <stdexcept>

#include <fmt/format.h>

namespace courthand::bench {

void ResultFile::add(std::string name, Values values) {
    results_.emplace_back(std::move(name), std::move(values));
}

void ResultFile::write(const std::filesystem::path& path) const {
    if (path.empty()) return;
    std::string text = "{\n  \"benchmarks\": [";
    const char* separator = "\n";
    for (const auto& [name, values] : results_) {
        text += fmt::format("{}    {{\"name\": \"{}\"", separator, name);
        for (const auto& [key, value] : values) text += fmt::format(", \"{}\": {}", key, value);
        text += "}";
        separator = ",\n";
    }
    text += "\n  ]\n}\n";
    std::ofstream out{path, std::ios::trunc};
    out << text;
    if (!out.flush()) throw std::runtime_error{"cannot write " + path.string()};
}

}  // namespace courthand::bench
