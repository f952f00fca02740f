// Which courts have been heard of lately. Silence is no fault: a table goes on without network, so
// the words are "not seen", never "stopped".
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "courthand/match/state.h"
#include "server/alerts/condition.h"

namespace courthand::server::alerts {

class CourtWatch {
  public:
    static constexpr const char* scope = "courts";

    /// A device of the court spoke with the server, or an entry of its match arrived.
    void heard(std::uint32_t court, const Now& at);
    /// What is on the court now; nothing when its match is over or there is none.
    void set_match(std::uint32_t court, std::optional<MatchId> match, Stage stage);
    /// At the start: the court was not seen when the server stopped, and stays so until it is
    /// heard of.
    void presume_silent(std::uint32_t court);

    [[nodiscard]] std::optional<Now> last_heard(std::uint32_t court) const;
    /// At most one condition for each court, or one for all of them. `since_start` is when the
    /// server began to listen: nobody is silent before that.
    [[nodiscard]] std::vector<Condition> conditions(const Now& now, const Now& since_start) const;

    [[nodiscard]] static AlertId id_of(std::uint32_t court);

  private:
    struct Court {
        std::optional<Now> heard;
        bool presumed_silent = false;
        std::optional<MatchId> match;
        Stage stage = Stage::before_match;
    };
    [[nodiscard]] static std::chrono::seconds silence(const Court& court, const Now& now,
                                                      const Now& since_start);

    std::map<std::uint32_t, Court> courts_;
};

}  // namespace courthand::server::alerts
