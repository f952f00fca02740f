#include "venue/memory_desk.h"

#include <algorithm>
#include <utility>

namespace courthand::venue {

MemoryDesk::MemoryDesk(DeskBook book) : book_(std::move(book)) {}

void MemoryDesk::start(Listener listener) {
    {
        const std::scoped_lock lock{mutex_};
        listener_ = std::move(listener);
        if (listener_.link) listener_.link({LinkState::live, {}});
    }
    tell();
}

void MemoryDesk::stop() {
    const std::scoped_lock lock{mutex_};
    listener_ = {};
}

void MemoryDesk::tell() const {
    const std::scoped_lock lock{mutex_};
    if (listener_.book) listener_.book(book_);
}

Outcome MemoryDesk::outcome() {
    if (problem_.empty()) return Outcome::ok();
    return Outcome::refused(std::exchange(problem_, {}));
}

void MemoryDesk::show(DeskBook book) {
    {
        const std::scoped_lock lock{mutex_};
        book_ = std::move(book);
    }
    tell();
}

void MemoryDesk::show(const Link& link) {
    const std::scoped_lock lock{mutex_};
    if (listener_.link) listener_.link(link);
}

void MemoryDesk::next_reading(RosterReading reading) {
    const std::scoped_lock lock{mutex_};
    reading_ = std::move(reading);
}

void MemoryDesk::show_audit(std::vector<AuditListed> lines) {
    const std::scoped_lock lock{mutex_};
    audit_ = std::move(lines);
}

void MemoryDesk::fail_next(std::string problem) {
    const std::scoped_lock lock{mutex_};
    problem_ = std::move(problem);
}

DeskBook MemoryDesk::book() const {
    const std::scoped_lock lock{mutex_};
    return book_;
}

RosterText MemoryDesk::last_roster() const {
    const std::scoped_lock lock{mutex_};
    return last_roster_;
}

void MemoryDesk::read_roster(const RosterText& file, bool keep, ReadingAnswer answer) {
    RosterReading reading;
    {
        const std::scoped_lock lock{mutex_};
        last_roster_ = file;
        reading = reading_;
        reading.failed = outcome().problem;
        reading.kept = keep && reading.failed.empty() && reading.problem_count == 0;
        if (reading.kept) {
            book_.teams.insert(book_.teams.end(), reading.teams.begin(), reading.teams.end());
        }
    }
    answer(reading);
    tell();
}

void MemoryDesk::create_match(const MatchWanted& match, Answer answer) {
    Outcome result;
    {
        const std::scoped_lock lock{mutex_};
        result = outcome();
        if (result.done) {
            MatchPlanned planned;
            planned.id = match.match_id;
            planned.number = static_cast<int>(book_.matches.size()) + 1;
            planned.court = match.court;
            planned.profile = match.profile;
            for (const auto& team : book_.teams) {
                if (team.id == match.first_team) planned.first = team.name;
                if (team.id == match.second_team) planned.second = team.name;
            }
            book_.matches.push_back(planned);
        }
    }
    answer(result);
    tell();
}

void MemoryDesk::assign_court(const Id& match_id, CourtNumber court, Answer answer) {
    Outcome result;
    {
        const std::scoped_lock lock{mutex_};
        result = outcome();
        for (auto& match : book_.matches) {
            if (result.done && match.id == match_id) match.court = court;
        }
    }
    answer(result);
    tell();
}

void MemoryDesk::issue_code(Seat, CourtNumber, CodeAnswer answer) {
    using std::chrono::minutes;
    CodeIssued code;
    {
        const std::scoped_lock lock{mutex_};
        code.failed = outcome().problem;
        if (code.failed.empty()) {
            code.text = "7K3M9QXA04ZTV8WB5C1NHRJ6";
            code.expires = book_.as_of + minutes(15);
        }
    }
    answer(code);
}

void MemoryDesk::revoke_device(const Id& device_id, const std::string&, Answer answer) {
    Outcome result;
    {
        const std::scoped_lock lock{mutex_};
        result = outcome();
        for (auto& device : book_.devices) {
            if (result.done && device.id == device_id) device.revoked = true;
        }
    }
    answer(result);
    tell();
}

void MemoryDesk::read_audit(std::uint64_t before, AuditAnswer answer) {
    AuditPage page;
    {
        const std::scoped_lock lock{mutex_};
        page.failed = outcome().problem;
        for (const AuditListed& line : audit_) {
            if (!page.failed.empty() || (before != 0 && line.number >= before)) continue;
            if (page.lines.size() == audit_page) {
                page.more = true;
                break;
            }
            page.lines.push_back(line);
        }
    }
    answer(page);
}

}  // namespace courthand::venue
