#include "server/auth/attempt_limiter.h"

#include <arpa/inet.h>

#include <algorithm>
#include <cassert>
#include <iterator>

namespace courthand::server::auth {

namespace {

using Instant = AttemptLimiter::Instant;
using std::chrono::milliseconds;

/// Until one try fits: every try moves the time of a full bucket on by one refill, and that time
/// may lie at most a whole burst ahead.
milliseconds wait_for(const AttemptRate& rate, Instant full_at, Instant now) {
    const auto fits_at = full_at + rate.refill - rate.refill * rate.burst;
    if (fits_at <= now) return milliseconds{0};
    return std::chrono::ceil<milliseconds>(fits_at - now);
}

Instant with_try(const AttemptRate& rate, Instant full_at, Instant now) {
    return std::max(full_at, now) + rate.refill;
}

/// Between "ipv6:" and the port, brackets as such or as %5B and %5D.
std::string host_of_v6(std::string_view rest) {
    std::string host{rest.substr(0, rest.rfind(':'))};
    for (const std::string_view mark : {"[", "]", "%5B", "%5D", "%5b", "%5d"})
        if (const auto at = host.find(mark); at != std::string::npos) host.erase(at, mark.size());
    host = host.substr(0, host.find('%'));  // a zone is the receiver's, not the sender's
    in6_addr address{};
    if (::inet_pton(AF_INET6, host.c_str(), &address) != 1 || IN6_IS_ADDR_V4MAPPED(&address))
        return host;
    // One machine has all addresses of its network part: they count as one.
    std::fill(address.s6_addr + 8, address.s6_addr + 16, std::uint8_t{0});
    char text[INET6_ADDRSTRLEN] = "";
    ::inet_ntop(AF_INET6, &address, text, sizeof text);
    return std::string{text} + "/64";
}

}  // namespace

AttemptLimiter::AttemptLimiter(AttemptLimits limits) : limits_{limits} {
    assert(limits_.address.burst > 0 && limits_.overall.burst > 0 && limits_.most_addresses > 0);
}

std::optional<milliseconds> AttemptLimiter::take(const std::string& address, Instant now) {
    const std::scoped_lock lock{mutex_};
    const auto found = addresses_.find(address);
    const FullAt full_at = found == addresses_.end() ? now : found->second;
    // What an address is refused costs the others nothing.
    if (const auto wait = wait_for(limits_.address, full_at, now); wait.count() > 0) return wait;
    if (const auto wait = wait_for(limits_.overall, overall_, now); wait.count() > 0) return wait;
    if (found == addresses_.end()) make_room(now);
    addresses_[address] = with_try(limits_.address, full_at, now);
    overall_ = with_try(limits_.overall, overall_, now);
    return std::nullopt;
}

void AttemptLimiter::give_back(const std::string& address) {
    const std::scoped_lock lock{mutex_};
    const auto found = addresses_.find(address);
    if (found != addresses_.end()) found->second -= limits_.address.refill;
    overall_ -= limits_.overall.refill;
}

std::size_t AttemptLimiter::addresses() const {
    const std::scoped_lock lock{mutex_};
    return addresses_.size();
}

// A full bucket tells nothing. When all are in use, the one that tells least goes: with the most
// tries left.
void AttemptLimiter::make_room(Instant now) {
    if (addresses_.size() < limits_.most_addresses) return;
    for (auto each = addresses_.begin(); each != addresses_.end();)
        each = each->second <= now ? addresses_.erase(each) : std::next(each);
    if (addresses_.size() < limits_.most_addresses) return;
    addresses_.erase(
        std::min_element(addresses_.begin(), addresses_.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; }));
}

std::string address_of_peer(std::string_view peer) {
    constexpr std::string_view v4 = "ipv4:";
    constexpr std::string_view v6 = "ipv6:";
    if (peer.starts_with(v4)) {
        peer.remove_prefix(v4.size());
        return std::string{peer.substr(0, peer.rfind(':'))};
    }
    if (!peer.starts_with(v6)) return std::string{peer};
    return host_of_v6(peer.substr(v6.size()));
}

}  // namespace courthand::server::auth
