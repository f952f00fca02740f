// A match record as a device writes it, for tests. Not thread-safe.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/v1/match.pb.h"
#include "server/domain/ids.h"
#include "wire/read_entry.h"
#include "wire/uuid.h"

namespace courthand::server::testing {

/// The record of one match as a device holds it.
class TestRecord {
  public:
    TestRecord(const wire::Uuid& match, DeviceId device, std::uint32_t epoch = 1);

    /// Appends a fact and answers the entry's number.
    std::uint32_t add(const Fact& fact);
    /// Appends what changes an earlier entry, or any other record.
    std::uint32_t correct(const Record& record);
    /// Appends `count` whole rallies, each won by one team or the other.
    void add_rallies(std::size_t count);
    /// Another device, or another epoch, goes on with this record.
    void go_on_as(DeviceId device, std::uint32_t epoch);
    /// Forgets everything after this number, as a device put back from a backup would.
    void cut_after(std::uint32_t number);

    [[nodiscard]] const std::vector<std::string>& bytes() const noexcept { return bytes_; }
    [[nodiscard]] std::uint32_t size() const noexcept {
        return static_cast<std::uint32_t>(bytes_.size());
    }
    [[nodiscard]] std::string head_hash() const;
    [[nodiscard]] const wire::Uuid& match() const noexcept { return match_; }
    [[nodiscard]] std::uint32_t epoch() const noexcept { return epoch_; }

  private:
    wire::Uuid match_;
    DeviceId device_;
    std::uint32_t epoch_ = 1;
    wire::Hasher hasher_;
    wire::UuidMaker ids_ = wire::UuidMaker::of_system();
    std::vector<std::string> bytes_;
    std::vector<wire::Head> heads_;
};

/// A match as a table opens it by itself.
[[nodiscard]] v1::Match test_match(const wire::Uuid& id, std::uint32_t court = 1);
[[nodiscard]] wire::Uuid new_match_id();

}  // namespace courthand::server::testing
