// event_probe pools < POOLS; event_probe graphs | draws | rounds
#include "probe.h"

#include <cstdio>
#include <string_view>

int main(int argc, char** argv) {
    using namespace courthand::event_probe;
    const std::string_view what = argc == 2 ? argv[1] : "";
    if (what == "pools") return pools();
    if (what == "graphs") return graphs();
    if (what == "draws") return draws();
    if (what == "rounds") return rounds();
    std::fputs("usage: event_probe pools|graphs|draws|rounds\n", stderr);
    return 2;
}
