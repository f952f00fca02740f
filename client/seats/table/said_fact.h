// A fact as a sheet on the screen says it: the name of its kind and of its fields as they stand in
// match/fact_fields.h, so that a sheet needs nothing here to record a kind that is regular.
#pragma once

#include <QString>
#include <QVariantMap>
#include <optional>

#include "acting.h"

namespace courthand::client {

/// A team is said by its side (true: left), a jersey and a libero box by a number (-1: none), a
/// choice by its word (match/choices.h), any other number as people say it. Nothing when there is
/// no such kind, a field is not said, or its value is none that it may have.
[[nodiscard]] std::optional<Fact> fact_said(const QString& kind, const QVariantMap& said,
                                            const Acting& table);

}  // namespace courthand::client
