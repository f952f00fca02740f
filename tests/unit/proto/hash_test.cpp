// SHA-256 against published values and against the openssl command, which is another way into the
// algorithm than the fetched one with a reused context.
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <random>

#include "wire/sha256.h"

namespace courthand::wire {
namespace {

std::string first_word_of(const std::string& command) {
    FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return "";
    char word[80] = "";
    const int read = std::fscanf(pipe, "%79s", word);
    pclose(pipe);
    return read == 1 ? word : "";
}

TEST(Hash, PublishedValues) {
    Hasher hasher;  // FIPS 180-4 examples
    EXPECT_EQ(to_hex(hasher.of("abc")),
              "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(to_hex(hasher.of("")),
              "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    EXPECT_EQ(to_hex(hasher.of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")),
              "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST(Hash, AgreesWithTheOpensslCommand) {
    const auto file =
        std::filesystem::temp_directory_path() / ("courthand-hash-" + std::to_string(getpid()));
    std::mt19937 random{4711};
    Hasher hasher;
    for (const std::size_t length : {0u, 1u, 55u, 56u, 63u, 64u, 65u, 300u, 4096u}) {
        std::string bytes(length, '\0');
        for (char& byte : bytes) byte = static_cast<char>(random() & 0xff);
        std::ofstream{file, std::ios::binary} << bytes;
        EXPECT_EQ(to_hex(hasher.of(bytes)),
                  first_word_of("openssl dgst -sha256 -r " + file.string()))
            << length << " bytes";
    }
    std::filesystem::remove(file);
}

TEST(Hash, BytesThereAndBack) {
    const Hash hash = Hasher{}.of("abc");
    EXPECT_EQ(hash_from_bytes(to_bytes(hash)), hash);
    EXPECT_FALSE(hash_from_bytes("too short").has_value());
}

}  // namespace
}  // namespace courthand::wire
