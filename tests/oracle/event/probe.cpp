// event_probe pools < POOLS
#include "probe.h"

#include <cstdio>
#include <string_view>

int main(int argc, char** argv) {
    using namespace courthand::event_probe;
    const std::string_view what = argc == 2 ? argv[1] : "";
    if (what == "pools") return pools();
    std::fputs("usage: event_probe pools\n", stderr);
    return 2;
}
