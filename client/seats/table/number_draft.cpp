#include "number_draft.h"

namespace courthand::client {

void NumberDraft::typeDigit(int digit) {
    typed_.digit(digit);
    Q_EMIT changed();
}

void NumberDraft::eraseTyped() {
    typed_.erase();
    Q_EMIT changed();
}

}  // namespace courthand::client
