// Where the code of an enrolment comes from: the command line for a person; standard input or a
// file for a script, since every account of a machine can read command lines.
#pragma once

#include <filesystem>
#include <iosfwd>
#include <string>
#include <variant>

namespace courthand::client {

/// A code as it was typed; not checked yet.
struct TypedCode {
    std::string text;
};

/// `words` as given on the command line: "-" reads a line from `input`. `file`, unless empty, holds
/// the code in its first line. The other alternative is a sentence with the cure.
[[nodiscard]] std::variant<TypedCode, std::string> code_of_words(const std::string& words,
                                                                 const std::filesystem::path& file,
                                                                 std::istream& input);

}  // namespace courthand::client
