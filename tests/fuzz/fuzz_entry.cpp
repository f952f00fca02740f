// Arbitrary bytes as an entry: read or refused with a reason; what is read survives the way back.
#include <cstdint>
#include <cstdlib>

#include "courthand/v1/entry.pb.h"
#include "wire/fact_convert.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace courthand;
    v1::Entry entry;
    if (!entry.ParseFromArray(data, static_cast<int>(size))) return 0;
    const auto read = wire::from_proto(entry);
    if (const auto* record = std::get_if<Record>(&read)) {
        v1::Entry again;
        wire::to_proto(*record, again);
        const auto second = wire::from_proto(again);
        const auto* same = std::get_if<Record>(&second);
        if (same == nullptr || !(*same == *record)) std::abort();
    }
    return 0;
}
