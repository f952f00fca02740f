// A journal whose disk fails while it is being read: what a person at the device is told.
#pragma once

#include <string>
#include <string_view>

#include "client/journal/unreadable_journal.h"

namespace courthand::client {

/// Sentences with the cause and the cure. `why`: what the disk or the database said of it.
[[nodiscard]] std::string unreadable_words(std::string_view why);

/// Runs what reads a journal; where its disk fails, says so in words, and empty where all went
/// well. Beyond this nobody sees the exception.
template <class Read>
[[nodiscard]] std::string unless_unreadable(Read read) {
    try {
        read();
    } catch (const UnreadableJournal& disk) {
        return unreadable_words(disk.what());
    }
    return {};
}

}  // namespace courthand::client
