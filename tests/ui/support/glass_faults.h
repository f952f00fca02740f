// What a person could not read or touch on the window as it is now: areas too small for a finger,
// things outside the window or under one another, words that run into each other or end in dots.
#pragma once

#include <QQuickWindow>
#include <QStringList>

namespace courthand::client::test {

struct GlassFaults {
    /// Least width and height of what can be touched, logical pixels.
    double least_touch = 48;
    /// Texts that may end in dots: free words of people, which have no longest.
    QStringList may_be_cut;
};

/// One sentence for each; empty when all is well. Under an open sheet only the sheet counts, and of
/// a list that scrolls only what is in sight.
[[nodiscard]] QStringList glass_faults(const QQuickWindow& window, const GlassFaults& wanted = {});

/// Texts below `root` that end in dots, run out of it or into each other.
[[nodiscard]] QStringList text_faults(const QQuickItem& root, const QStringList& may_be_cut = {});

}  // namespace courthand::client::test
