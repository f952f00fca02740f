// The words of a tile on every glass: none is cut, and no two run into each other, also not the
// longest that a profile has.
#include <set>

#include "courthand/rules/profile.h"
#include "courthand/rules/reason.h"
#include "glass_faults.h"
#include "table_fixture.h"
#include "wording.h"

namespace courthand::client::test {
namespace {

struct Glass {
    const char* name;
    QSize size;
};
const Glass glasses[] = {{"1024x600", {1024, 600}},
                         {"1024x768", {1024, 768}},
                         {"1280x800", {1280, 800}},
                         {"1366x768", {1366, 768}},
                         {"1920x1080", {1920, 1080}}};

struct Look {
    const char* what;
    const char* footnote;
    bool libero;
    bool captain;
    bool triangle;
};
const Look looks[] = {{"a libero on court", "L2 for 38", true, false, false},
                      {"a libero who may serve", "L1 for 38", true, false, true},
                      {"a libero who is captain", "L2 for 38", true, true, false},
                      {"the captain serves", "serves", false, true, false},
                      {"a captain who was checked", "✓ seen", false, true, false},
                      {"a player beside the court", "off for 38", false, false, false},
                      {"a captain and libero who serves", "L1 for 38", true, true, true}};

class Tiles : public TableTest, public testing::WithParamInterface<Glass> {
  protected:
    void expect_readable(const char* tile, const std::string& what) {
        const QQuickItem* item = hand->find(QString::fromLatin1(tile));
        ASSERT_NE(item, nullptr);
        for (const QString& fault : text_faults(*item))
            ADD_FAILURE() << what << ": " << fault.toStdString();
    }
    void set(const char* tile, const char* property, const QVariant& value) {
        ASSERT_TRUE(hand->find(QString::fromLatin1(tile))->setProperty(property, value));
    }
};

TEST_P(Tiles, WhatStandsUnderANumber) {
    ready_to_serve(*session);
    show(GetParam().size, 0);
    for (const Look& look : looks) {
        // Positions with the widest numerals, in the nearest and in the middle row.
        for (const char* tile : {"right2", "left5"}) {
            set(tile, "number", QStringLiteral("38"));
            set(tile, "footnote", QString::fromUtf8(look.footnote));
            set(tile, "libero", look.libero);
            set(tile, "captain", look.captain);
            set(tile, "triangle", look.triangle);
            hand->settle();
            expect_readable(tile, std::string{look.what} + ", " + tile);
        }
        hand->picture(
            QStringLiteral("tile-%1-%2").arg(QLatin1String(GetParam().name)).arg(&look - looks));
    }
    for (const char* word : {"libero", "unable", "off for 38"}) {
        set("leftLibero0", "footnote", QString::fromLatin1(word));
        hand->settle();
        expect_readable("leftLibero0", word);
    }
}

TEST_P(Tiles, WhyAPlaceIsNotLegalInTheWordsOfEachProfile) {
    ready_to_serve(*session);
    show(GetParam().size, 0);
    std::set<QString> words;
    for (const std::string& id : profile_ids()) {
        const auto family = static_cast<std::size_t>(find_profile(id)->rules.family);
        for (const ReasonRow& row : reason_table) {
            const bool replaces =
                row.group == Group::replacements || row.group == Group::designations;
            if (replaces && !row.reference[family].empty())
                words.insert(Wording::brief(row.reason));
        }
    }
    ASSERT_GT(words.size(), 5U);
    set("left2", "offer", 3);  // CourtTile.Barred
    set("left2", "number", QStringLiteral("38"));
    for (const QString& why : words) {
        set("left2", "whyNot", why);
        hand->settle();
        expect_readable("left2", why.toStdString());
    }
    hand->picture(QStringLiteral("tile-barred-%1").arg(QLatin1String(GetParam().name)));
}

INSTANTIATE_TEST_SUITE_P(Glass, Tiles, testing::ValuesIn(glasses),
                         [](const auto& glass) { return std::string{"g"} + glass.param.name; });

}  // namespace
}  // namespace courthand::client::test
