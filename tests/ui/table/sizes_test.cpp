// Touch sizes in millimetres, gaps, and that nothing leaves the window, for each kind of screen.
#include <QAccessible>
#include <algorithm>
#include <cmath>

#include "table_fixture.h"

namespace courthand::client::test {
namespace {

struct Glass {
    const char* name;
    QSize size;
    double density;  ///< pixels per millimetre of the glass
};

class Sizes : public TableTest, public testing::WithParamInterface<Glass> {
  protected:
    [[nodiscard]] double mm(double pixels) const { return pixels / GetParam().density; }
    [[nodiscard]] QRectF rect(const QString& name) const {
        const QQuickItem* item = hand->find(name);
        return item == nullptr ? QRectF{}
                               : item->mapRectToScene({0, 0, item->width(), item->height()});
    }
};

TEST_P(Sizes, TouchTargetsInPlay) {
    ready_to_serve(*session);
    show(GetParam().size, GetParam().density);
    hand->settle();
    for (const char* name : {"wonLeft", "wonRight"}) {
        EXPECT_GE(mm(rect(name).width()), 18.0) << name;
        EXPECT_GE(mm(rect(name).height()), 18.0) << name;
    }
    for (const char* name :
         {"left0", "left5", "right2", "leftLibero0", "leftLibero1", "rightLibero0"}) {
        EXPECT_GE(mm(rect(name).width()), 12.0) << name;
        EXPECT_GE(mm(rect(name).height()), 12.0) << name;
    }
    const std::vector<QQuickItem*> touchables = hand->touchables();
    ASSERT_GT(touchables.size(), 20U);
    const QRectF page{QPointF{}, QSizeF{GetParam().size}};
    std::vector<QRectF> rects;
    for (const QQuickItem* item : touchables) {
        const QRectF r = item->mapRectToScene({0, 0, item->width(), item->height()});
        rects.push_back(r);
        EXPECT_GE(mm(r.width()), 10.0) << item->objectName().toStdString();
        EXPECT_GE(mm(r.height()), 10.0) << item->objectName().toStdString();
        EXPECT_TRUE(page.contains(r)) << item->objectName().toStdString() << " leaves the window";
    }
    for (std::size_t i = 0; i < rects.size(); ++i)
        for (std::size_t k = i + 1; k < rects.size(); ++k) {
            const double across = std::max(rects[i].left(), rects[k].left()) -
                                  std::min(rects[i].right(), rects[k].right());
            const double down = std::max(rects[i].top(), rects[k].top()) -
                                std::min(rects[i].bottom(), rects[k].bottom());
            EXPECT_GE(mm(std::max(across, down)), 1.95)
                << touchables[i]->objectName().toStdString() << " and "
                << touchables[k]->objectName().toStdString() << " are too close";
        }
}

TEST_P(Sizes, UndoIsFarFromTheRallyAreasAndInTheMiddle) {
    ready_to_serve(*session);
    show(GetParam().size, GetParam().density);
    const QRectF undo = rect("undo");
    EXPECT_NEAR(undo.center().x(), GetParam().size.width() / 2.0, 2.0);
    for (const char* name : {"wonLeft", "wonRight"}) {
        const QRectF area = rect(name);
        const double across =
            std::max(undo.left(), area.left()) - std::min(undo.right(), area.right());
        EXPECT_GE(mm(across), 20.0) << name;
    }
}

TEST_P(Sizes, FiguresAreReadAtArmsLength) {
    ready_to_serve(*session);
    show(GetParam().size, GetParam().density);
    const auto cap = [this](const QString& name) {
        return mm(hand->find(name)->property("font").value<QFont>().pixelSize() * 0.714);
    };
    EXPECT_GE(cap("leftPoints"), 11.9) << "the score";
    EXPECT_GE(cap("next"), 2.8) << "what comes next";
}

TEST_P(Sizes, EverythingTouchableHasANameAndARole) {
    ready_to_serve(*session);
    show(GetParam().size, GetParam().density);
    for (QQuickItem* item : hand->touchables()) {
        QAccessibleInterface* spoken = QAccessible::queryAccessibleInterface(item);
        ASSERT_NE(spoken, nullptr) << item->objectName().toStdString();
        EXPECT_FALSE(spoken->text(QAccessible::Name).isEmpty()) << item->objectName().toStdString();
        EXPECT_TRUE(spoken->role() == QAccessible::Button ||
                    spoken->role() == QAccessible::CheckBox)
            << item->objectName().toStdString();
    }
}

INSTANTIATE_TEST_SUITE_P(Glass, Sizes,
                         testing::Values(Glass{"tablet1280x800", {1280, 800}, 149.0 / 25.4},
                                         Glass{"netbook1024x600", {1024, 600}, 118.0 / 25.4},
                                         Glass{"tablet1920x1080", {1920, 1080}, 218.0 / 25.4},
                                         Glass{"laptop1920x1080", {1920, 1080}, 5.55}),
                         [](const auto& glass) { return std::string{glass.param.name}; });

}  // namespace
}  // namespace courthand::client::test
