#include "client/sync/refusal.h"

#include <fmt/format.h>

namespace courthand::client {
namespace {

std::string setting_of(const std::string& match_id) {
    return "refused/" + match_id;
}

const char* cure_of(v1::PushResult::Cause cause) {
    switch (static_cast<int>(cause)) {
        case v1::PushResult::CAUSE_UNREADABLE:
            return "Tell the desk: the server may have to be updated.";
        case v1::PushResult::CAUSE_UNKNOWN_MATCH:
            return "Tell the desk: the match must be made at the server first.";
        case v1::PushResult::CAUSE_NOT_ITS_DEVICE:
            return "Another device wrote it, or this one before it was enrolled anew: connect that "
                   "device to the network, or tell the desk.";
        case v1::PushResult::CAUSE_OTHER_COURT:
            return "Ask the desk to put the match on the court of this device.";
        case v1::PushResult::CAUSE_FULL:
        case v1::PushResult::CAUSE_ID_USED:
        default:
            return "Tell the desk.";
    }
}

}  // namespace

std::pair<std::string, std::string> kept(const std::string& match_id, const Refusal& refusal) {
    v1::PushResponse whole;
    whole.mutable_header()->ParseFromString(refusal.server.to_bytes());
    *whole.add_results() = refusal.result;
    return {setting_of(match_id), whole.SerializeAsString()};
}

std::optional<Refusal> kept_refusal(const Journal& journal, const std::string& match_id) {
    v1::PushResponse whole;
    if (!whole.ParseFromString(journal.setting(setting_of(match_id))) || whole.results_size() == 0)
        return std::nullopt;
    return Refusal{whole.results(0), ServerMark::of(whole.header())};
}

std::string words_of(const Refusal& refusal) {
    const std::string& message = refusal.result.message();
    return fmt::format(
        "The server does not take entry {}{}{}. {} Everything is saved on this device and offered "
        "again every minute.",
        refusal.result.seq(), message.empty() ? "" : ": ", message,
        cure_of(refusal.result.cause()));
}

}  // namespace courthand::client
