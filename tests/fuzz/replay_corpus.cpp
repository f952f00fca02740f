// Runs a fuzz target over the files and folders that are named, once each; the corpus as a test.
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

std::size_t run_file(const std::filesystem::path& path) {
    std::ifstream file{path, std::ios::binary};
    const std::vector<char> bytes{std::istreambuf_iterator<char>{file}, {}};
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
    return 1;
}

}  // namespace

int main(int count, char** paths) {
    std::size_t files = 0;
    for (int i = 1; i < count; ++i) {
        const std::filesystem::path path{paths[i]};
        if (!std::filesystem::is_directory(path)) {
            files += run_file(path);
            continue;
        }
        for (const auto& entry : std::filesystem::recursive_directory_iterator{path})
            if (entry.is_regular_file()) files += run_file(entry.path());
    }
    std::printf("%zu inputs\n", files);
    return files > 0 ? 0 : 1;
}
