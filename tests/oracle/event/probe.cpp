// event_probe pools | needs < POOLS; event_probe graphs | crossings | draws | moves | lots | rounds
// | orders
#include "probe.h"

#include <cstdio>
#include <map>
#include <string_view>

int main(int argc, char** argv) {
    using namespace courthand::event_probe;
    static const std::map<std::string_view, int (*)()> answers{
        {"pools", &pools},         {"needs", &needs},   {"graphs", &graphs},
        {"crossings", &crossings}, {"draws", &draws},   {"moves", &moves},
        {"lots", &lots},           {"rounds", &rounds}, {"orders", &orders}};
    const auto found = answers.find(argc == 2 ? argv[1] : "");
    if (found != answers.end()) return found->second();
    std::fputs("usage: event_probe pools|needs|graphs|crossings|draws|moves|lots|rounds|orders\n",
               stderr);
    return 2;
}
