// A table process to be killed: records as fast as it can and says, after each entry that was
// confirmed, which one it was. Arguments: device folder, seed.
#include <unistd.h>

#include <cstdio>
#include <string>

#include <fmt/format.h>

#include "client/tables/table_station.h"
#include "courthand/sim/match_player.h"

int main(int argc, char** argv) {
    using namespace courthand::client;
    if (argc != 3) return 2;
    auto opened = TableStation::open({argv[1], {}, 0, {}, {}});
    if (auto* wrong = std::get_if<std::string>(&opened)) {
        fmt::print(stderr, "{}\n", *wrong);
        return 1;
    }
    TableStation& table = *std::get<0>(opened);
    std::string id;
    while ((id = table.next_match()).empty()) usleep(1000);
    auto match = table.open_match(id);
    if (auto* wrong = std::get_if<std::string>(&match)) {
        fmt::print(stderr, "{}\n", *wrong);
        return 1;
    }
    JournaledMatch& record = *std::get<0>(match);
    courthand::sim::MatchPlayer player{std::stoull(argv[2])};
    for (;;) {
        const auto step = player.next(record.rules(), record.state());
        if (!step) return 0;
        const auto result = step->fact ? record.record(*step->fact) : record.strike_last();
        if (result.error) return 1;
        // Straight to the pipe: what was said before the kill must be read after it.
        const std::string line =
            fmt::format("{} {:016x}\n", result.seq, courthand::state_hash(record.state()));
        if (write(STDOUT_FILENO, line.data(), line.size()) < 0) return 1;
    }
}
