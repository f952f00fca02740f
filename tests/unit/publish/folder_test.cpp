// The site as files of a folder.
#include "server/publish/folder.h"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "tests/testkit/scratch_folder.h"

namespace courthand::server::publish {
namespace {

std::shared_ptr<const File> file(const std::string& bytes) {
    return std::make_shared<const File>(File{bytes, "text/html", "\"" + bytes + "\"", {}});
}
std::string read(const std::filesystem::path& path) {
    std::ifstream in{path, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

TEST(PublishFolder, WritesWhatChangedAndTakesAwayWhatIsGone) {
    const testkit::ScratchFolder scratch;
    Folder folder{scratch.path() / "site"};
    ASSERT_TRUE(folder.write({{"a.html", file("one")}, {"b.html", file("two")}}).ok());
    std::ofstream{scratch.path() / "site" / "of-others.txt"} << "stays";
    ASSERT_TRUE(folder.write({{"a.html", file("three")}}).ok());
    EXPECT_EQ(read(scratch.path() / "site/a.html"), "three");
    EXPECT_FALSE(std::filesystem::exists(scratch.path() / "site/b.html"));
    EXPECT_EQ(read(scratch.path() / "site/of-others.txt"), "stays");
}

TEST(PublishFolder, WhatAServerBeforeItWroteIsTakenAwayAndNothingElse) {
    const testkit::ScratchFolder scratch;
    const std::filesystem::path site = scratch.path() / "site";
    {
        Folder before{site};
        ASSERT_TRUE(before.write({{"a.html", file("one")}, {"b.html", file("two")}}).ok());
    }
    std::ofstream{scratch.path() / "outside.html"} << "stays";
    std::ofstream{site / "of-others.txt"} << "stays";
    std::ofstream{site / Folder::list, std::ios::app} << "../outside.html\n";
    Folder folder{site};
    ASSERT_TRUE(folder.write({{"a.html", file("three")}}).ok());
    EXPECT_EQ(read(site / "a.html"), "three");
    EXPECT_FALSE(std::filesystem::exists(site / "b.html"));
    EXPECT_EQ(read(site / "of-others.txt"), "stays");
    EXPECT_EQ(read(scratch.path() / "outside.html"), "stays");
    EXPECT_EQ(read(site / Folder::list), "a.html\n");
}

TEST(PublishFolder, AReaderOfTheOldFileReadsItWhole) {
    const testkit::ScratchFolder scratch;
    Folder folder{scratch.path()};
    ASSERT_TRUE(folder.write({{"a.html", file("one two three")}}).ok());
    std::ifstream reader{scratch.path() / "a.html", std::ios::binary};
    std::string begun(3, ' ');
    reader.read(begun.data(), 3);
    ASSERT_TRUE(folder.write({{"a.html", file("four")}}).ok());
    EXPECT_EQ(begun + std::string(std::istreambuf_iterator<char>{reader}, {}), "one two three");
}

TEST(PublishFolder, OneFileThatCannotBeWrittenHoldsUpNoOtherAndIsTriedAgain) {
    const testkit::ScratchFolder scratch;
    Folder folder{scratch.path()};
    // A folder that is not empty stands where the file would be.
    std::filesystem::create_directories(scratch.path() / "a.html" / "x");
    EXPECT_FALSE(folder.write({{"a.html", file("one")}, {"b.html", file("two")}}).ok());
    EXPECT_EQ(read(scratch.path() / "b.html"), "two");
    std::filesystem::remove_all(scratch.path() / "a.html");
    EXPECT_TRUE(folder.write({{"a.html", file("one")}, {"b.html", file("two")}}).ok());
    EXPECT_EQ(read(scratch.path() / "a.html"), "one");
}

TEST(PublishFolder, AFolderThatCannotBeNamesItselfAndTheCure) {
    const testkit::ScratchFolder scratch;
    std::ofstream{scratch.path() / "a-file"} << "x";
    Folder folder{scratch.path() / "a-file"};
    const Status status = folder.write({{"a.html", file("one")}});
    EXPECT_FALSE(status.ok());
    EXPECT_NE(status.text().find("a-file"), std::string::npos);
    EXPECT_NE(status.text().find("--publish-folder"), std::string::npos);
}

}  // namespace
}  // namespace courthand::server::publish
