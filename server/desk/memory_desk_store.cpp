#include <algorithm>
#include <map>
#include <mutex>

#include "server/desk/desk_store.h"

namespace courthand::server::desk {

namespace {

class MemoryDeskStore final : public DeskStore {
  public:
    Result<std::vector<Team>> teams() override {
        const std::scoped_lock lock{mutex_};
        std::vector<Team> sorted = teams_;
        std::sort(sorted.begin(), sorted.end(),
                  [](const Team& one, const Team& other) { return one.name < other.name; });
        return sorted;
    }

    Result<Team> team(TeamId id) override {
        const std::scoped_lock lock{mutex_};
        for (const Team& team : teams_)
            if (team.id == id) return team;
        return Status::failed(StatusCode::not_found, "there is no such team");
    }

    Result<std::vector<Team>> keep_teams(std::span<const Team> teams) override {
        const std::scoped_lock lock{mutex_};
        std::vector<Team> kept;
        for (Team team : teams) {
            const auto known = std::find_if(teams_.begin(), teams_.end(), [&](const Team& other) {
                return other.name == team.name && other.club == team.club;
            });
            team.id = known == teams_.end() ? TeamId{new_uuid()} : known->id;
            if (known == teams_.end())
                teams_.push_back(team);
            else
                *known = team;
            kept.push_back(std::move(team));
        }
        return kept;
    }

    Result<std::vector<Court>> courts() override {
        const std::scoped_lock lock{mutex_};
        std::vector<Court> sorted;
        for (const auto& [number, name] : courts_) sorted.push_back({number, name});
        return sorted;
    }

    Status keep_court(const Court& court) override {
        const std::scoped_lock lock{mutex_};
        std::string& name = courts_[court.number];
        if (!court.name.empty()) name = court.name;
        return Status::fine();
    }

  private:
    std::mutex mutex_;
    std::vector<Team> teams_;
    std::map<std::uint32_t, std::string> courts_;
};

}  // namespace

std::unique_ptr<DeskStore> make_memory_desk_store() {
    return std::make_unique<MemoryDeskStore>();
}

}  // namespace courthand::server::desk
