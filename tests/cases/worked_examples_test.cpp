// WORKED.md says which case shows which published example: every path it names must be a case.
#include <gtest/gtest.h>

#include <filesystem>
#include <regex>
#include <set>
#include <string>

#include "case_folder.h"

namespace courthand {
namespace {

/// Paths in back quotes: `folder/name`, without ".match".
std::set<std::string> named_cases(const std::string& page) {
    std::set<std::string> names;
    const std::regex path{"`([a-z]+/[a-z0-9-]+)`"};
    const std::sregex_iterator end;
    for (std::sregex_iterator i{page.begin(), page.end(), path}; i != end; ++i)
        names.insert((*i)[1].str());
    return names;
}

TEST(WorkedExamples, NameCasesThatExist) {
    const std::filesystem::path folder{COURTHAND_CASES};
    const std::set<std::string> names = named_cases(contents(folder / "WORKED.md"));
    EXPECT_GT(names.size(), 100U) << "WORKED.md names no cases or cannot be read";
    for (const std::string& name : names)
        EXPECT_TRUE(std::filesystem::is_regular_file(folder / (name + ".match")))
            << "WORKED.md names " << name << ", which is no case";
}

}  // namespace
}  // namespace courthand
