// Those who have signed, between the core and the wire.
#pragma once

#include <google/protobuf/repeated_field.h>

#include "courthand/match/signatures.h"

namespace courthand::wire {

inline void to_proto(SignerSet signers, google::protobuf::RepeatedField<int>& out) {
    for (std::size_t i = 0; i < choice_count<Signer>; ++i)
        if (signers.has(static_cast<Signer>(i))) out.Add(static_cast<int>(i) + 1);
}

/// A function that this program does not know counts for nobody.
[[nodiscard]] inline SignerSet signers_of(const google::protobuf::RepeatedField<int>& kept) {
    SignerSet signers;
    for (const int number : kept)
        if (number >= 1 && number <= static_cast<int>(choice_count<Signer>))
            signers.add(static_cast<Signer>(number - 1));
    return signers;
}

}  // namespace courthand::wire
