#include "server/auth/attempt_limiter.h"

#include <arpa/inet.h>

#include <algorithm>
#include <cassert>

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
    forget_old(now);
    const auto found = failed_.find(address);
    if (found != failed_.end()) {
        // What an address is refused costs the others nothing.
        const FullAt full_at = found->second.full_at;
        if (const auto wait = wait_for(limits_.address, full_at, now); wait.count() > 0)
            return wait;
        if (const auto wait = wait_for(limits_.overall, overall_, now); wait.count() > 0)
            return wait;
        move(address, full_at, with_try(limits_.address, full_at, now));
    } else {
        make_room();
        failed_[address] = {};
        move(address, {}, with_try(limits_.address, now, now));
    }
    ++failed_[address].tries;
    // A try that is always given counts, too, but makes nobody wait longer than an empty bucket.
    overall_ = std::min(with_try(limits_.overall, overall_, now),
                        now + limits_.overall.refill * limits_.overall.burst);
    return std::nullopt;
}

void AttemptLimiter::give_back(const std::string& address) {
    const std::scoped_lock lock{mutex_};
    overall_ -= limits_.overall.refill;
    const auto found = failed_.find(address);
    if (found == failed_.end()) return;
    const FullAt full_at = found->second.full_at;
    if (--found->second.tries > 0) return move(address, full_at, full_at - limits_.address.refill);
    by_full_at_.erase({full_at, address});
    failed_.erase(found);
}

std::size_t AttemptLimiter::addresses() const {
    const std::scoped_lock lock{mutex_};
    return failed_.size();
}

void AttemptLimiter::move(const std::string& address, FullAt from, FullAt to) {
    by_full_at_.erase({from, address});
    by_full_at_.insert({to, address});
    failed_[address].full_at = to;
}

void AttemptLimiter::forget_old(Instant now) {
    while (!by_full_at_.empty() && by_full_at_.begin()->first + limits_.forgets <= now) {
        failed_.erase(by_full_at_.begin()->second);
        by_full_at_.erase(by_full_at_.begin());
    }
}

void AttemptLimiter::make_room() {
    if (failed_.size() < limits_.most_addresses) return;
    failed_.erase(by_full_at_.begin()->second);
    by_full_at_.erase(by_full_at_.begin());
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
