#include "tests/bench/bench_folder.h"

#include <stdlib.h>

#include <stdexcept>
#include <string>

namespace courthand::bench {

BenchFolder::BenchFolder() {
    const char* const below = std::getenv("COURTHAND_BENCH_FOLDER");
    std::string name =
        (std::filesystem::path{below != nullptr ? below : "."} / "bench-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr)
        throw std::runtime_error{"cannot make a folder for the measurement: " + name};
    path_ = std::filesystem::absolute(name);
}

BenchFolder::~BenchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

}  // namespace courthand::bench
