#include "server/testing/test_record.h"

#include <stdexcept>

#include "courthand/rules/profile.h"
#include "wire/chain.h"
#include "wire/fact_convert.h"

namespace courthand::server::testing {

TestRecord::TestRecord(const wire::Uuid& match, DeviceId device, std::uint32_t epoch)
    : match_{match}, device_{device}, epoch_{epoch} {
    heads_.push_back(wire::genesis(match_, hasher_));
}

std::uint32_t TestRecord::add(const Fact& fact) {
    return correct(Record{fact});
}

std::uint32_t TestRecord::correct(const Record& record) {
    v1::Entry entry;
    entry.set_match_id(match_.to_bytes());
    entry.set_epoch(epoch_);
    entry.set_entry_id(ids_.next().to_bytes());
    entry.set_device_id(to_bytes(device_.value));
    entry.set_device_time_us(1);
    wire::to_proto(record, entry);
    auto sealed = wire::seal(entry, heads_.back(), hasher_);
    if (const auto* why = std::get_if<wire::Unreadable>(&sealed))
        throw std::logic_error{why->text()};
    const auto& made = std::get<wire::ReadEntry>(sealed);
    bytes_.push_back(made.bytes());
    heads_.push_back(made.head());
    return size();
}

void TestRecord::add_rallies(std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
        add(Serve{});
        add(RallyWon{i % 3 == 0 ? Team::B : Team::A});
    }
}

void TestRecord::go_on_as(DeviceId device, std::uint32_t epoch) {
    device_ = device;
    epoch_ = epoch;
}

void TestRecord::cut_after(std::uint32_t number) {
    bytes_.resize(number);
    heads_.resize(number + 1);
}

std::string TestRecord::head_hash() const {
    return wire::to_bytes(heads_.back().hash);
}

wire::Uuid new_match_id() {
    return wire::Uuid{new_uuid().bytes};
}

v1::Match test_match(const wire::Uuid& id, std::uint32_t court) {
    const Profile* const profile = find_profile("international-2025");
    v1::Match match;
    match.set_match_id(id.to_bytes());
    match.set_court(court);
    match.mutable_first()->set_name("Harbour Lights");
    match.mutable_second()->set_name("Mill Lane");
    wire::to_proto(profile->rules.format, *match.mutable_format());
    match.set_profile_id(profile->id);
    match.set_profile_hash(profile->hash);
    return match;
}

}  // namespace courthand::server::testing
