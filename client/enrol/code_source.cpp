#include "client/enrol/code_source.h"

#include <array>
#include <fstream>
#include <istream>

#include <fmt/format.h>

namespace courthand::client {
namespace {

/// A code with all its blanks is far shorter; what is longer is not one.
constexpr std::size_t longest_line = 200;

std::variant<TypedCode, std::string> first_line(std::istream& input, const std::string& where) {
    std::array<char, longest_line> line{};
    input.getline(line.data(), static_cast<std::streamsize>(line.size()));
    std::string text = line.data();
    if (text.empty())
        return fmt::format(
            "There is no code in {}. Put the code from the desk into its first line.", where);
    return TypedCode{std::move(text)};
}

}  // namespace

std::variant<TypedCode, std::string> code_of_words(const std::string& words,
                                                   const std::filesystem::path& file,
                                                   std::istream& input) {
    if (file.empty()) {
        if (words == "-") return first_line(input, "standard input");
        return TypedCode{words};
    }
    std::ifstream in{file};
    if (!in)
        return fmt::format("The file {} cannot be read. Check its name and its rights.",
                           file.string());
    return first_line(in, file.string());
}

}  // namespace courthand::client
