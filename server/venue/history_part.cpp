#include "server/venue/history_part.h"

#include <cstring>
#include <optional>
#include <set>
#include <type_traits>

#include "courthand/v1/snapshot.pb.h"

namespace courthand::server::venue {
namespace {

using alerts::MatchHistory;

struct CourseRow {
    alerts::Course course;
    Six before{};
};

template <class Value>
void keep(const Value& value, std::string& out) {
    static_assert(std::is_trivially_copyable_v<Value>);
    out.assign(reinterpret_cast<const char*>(&value), sizeof value);
}

template <class Value>
std::optional<Value> value_of(const std::string& bytes) {
    static_assert(std::is_trivially_copyable_v<Value>);
    if (bytes.size() != sizeof(Value)) return std::nullopt;
    Value value{};
    std::memcpy(&value, bytes.data(), sizeof value);
    return value;
}

template <class Value, class Field>
void read_all(const Field& field, std::vector<Value>& out) {
    for (const std::string& bytes : field)
        if (const auto value = value_of<Value>(bytes)) out.push_back(*value);
}

}  // namespace

std::string history_part(const MatchHistory& history) {
    v1::HistoryKept kept;
    std::set<EntryNumber> entries;
    for (const auto& [key, course] : history.verdicts()) {
        keep(CourseRow{course, history.before(key)}, *kept.add_courses());
        entries.insert(course.first_open.entry);
    }
    for (const EntryNumber entry : entries) {
        v1::EntryKept& raw = *kept.add_raw();
        raw.set_number(entry);
        raw.set_data(history.raw(entry));
    }
    for (const auto& made : history.redesignations()) keep(made, *kept.add_redesignations());
    keep(history.replacements().a, *kept.mutable_replacements_a());
    keep(history.replacements().b, *kept.mutable_replacements_b());
    return kept.SerializeAsString();
}

MatchHistory history_of_part(std::string_view part) {
    v1::HistoryKept kept;
    MatchHistory::Past past;
    if (!kept.ParseFromArray(part.data(), static_cast<int>(part.size()))) return MatchHistory{past};
    std::vector<CourseRow> rows;
    read_all(kept.courses(), rows);
    for (const CourseRow& row : rows) {
        const alerts::VerdictKey key = alerts::key_of(row.course.first_open);
        past.verdicts[key] = row.course;
        past.before[key] = row.before;
    }
    for (const v1::EntryKept& raw : kept.raw())
        past.raw[raw.number()] = std::make_shared<const std::string>(raw.data());
    read_all(kept.redesignations(), past.redesignations);
    using alerts::LastReplacements;
    past.replacements = {
        value_of<LastReplacements>(kept.replacements_a()).value_or(LastReplacements{}),
        value_of<LastReplacements>(kept.replacements_b()).value_or(LastReplacements{})};
    return MatchHistory{std::move(past)};
}

}  // namespace courthand::server::venue
