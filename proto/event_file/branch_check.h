// Checks what lies beside the record of one match: entries of a fenced writer, or of a fork, each
// on a branch. They count for nothing, and are kept whole.
#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "event_file/lines.h"

namespace courthand::event_file {

class BranchCheck {
  public:
    explicit BranchCheck(const wire::Uuid& match) : match_{match} {}

    /// An entry of the record itself, which cannot lie on a branch too.
    void recorded(const wire::Hash& hash) { seen_.insert(hash); }
    /// Where it stands in the file, and what it says.
    void take(std::uint32_t line, const BranchLine& entry);

    [[nodiscard]] const std::vector<Fault>& faults() const noexcept { return faults_; }
    /// All that were taken, as the end of the record tells them.
    [[nodiscard]] BesideRecord told() const { return beside_record(hashes_); }

  private:
    void fault(std::uint32_t line, const BranchLine& entry, const std::string& what);
    void check_header(std::uint32_t line, const BranchLine& entry, const wire::EntryHeader& header);

    wire::Uuid match_;
    std::set<wire::Hash> seen_;
    /// Who wrote a branch, and in which epoch.
    std::map<std::uint32_t, std::pair<wire::Uuid, std::uint32_t>> writers_;
    std::vector<wire::Hash> hashes_;
    std::vector<Fault> faults_;
};

}  // namespace courthand::event_file
