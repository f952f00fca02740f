// WCAG 2.2 contrast of the tokens, both themes.
#include <QColor>
#include <cmath>

#include "table_fixture.h"

namespace courthand::client::test {
namespace {

double luminance(const QColor& colour) {
    const auto linear = [](double c) {
        return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

double contrast(const QColor& a, const QColor& b) {
    const double la = luminance(a);
    const double lb = luminance(b);
    return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

struct PairOfTokens {
    const char* front;
    const char* back;
    double least;
};

class Contrast : public TableTest, public testing::WithParamInterface<bool> {};

TEST_P(Contrast, TextInPlayIsSevenToOneAndMarksThree) {
    ready_to_serve(*session);
    show();
    setTheme("dark", GetParam());
    constexpr double text = 7.0;
    constexpr double mark = 3.0;
    for (const PairOfTokens pair :
         std::initializer_list<PairOfTokens>{{"ink", "ground", text},
                                             {"ink", "raised", text},
                                             {"ink", "floor", text},
                                             {"ink", "accentTint", text},
                                             {"inkSoft", "ground", text},
                                             {"inkSoft", "raised", text},
                                             {"inkSoft", "floor", text},
                                             {"inkSoft", "accentTint", text},
                                             {"accent", "ground", text},
                                             {"accent", "raised", text},
                                             {"accent", "accentTint", text},
                                             {"penOnAccent", "accent", text},
                                             {"raised", "ink", text},
                                             {"line", "ground", mark},
                                             {"line", "raised", mark},
                                             {"line", "floor", mark},
                                             {"accent", "floor", mark}}) {
        const double measured =
            contrast(theme(pair.front).value<QColor>(), theme(pair.back).value<QColor>());
        EXPECT_GE(measured, pair.least) << pair.front << " on " << pair.back;
    }
    setTheme("dark", false);
}

INSTANTIATE_TEST_SUITE_P(Paper, Contrast, testing::Values(false, true),
                         [](const auto& paper) { return paper.param ? "Dark" : "Light"; });

}  // namespace
}  // namespace courthand::client::test
