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

/// A try that is given in any case makes nobody wait longer than an empty bucket does.
Instant with_try(const AttemptRate& rate, Instant full_at, Instant now) {
    return std::min(std::max(full_at, now) + rate.refill, now + rate.refill * rate.burst);
}

std::optional<in6_addr> v6_of(const std::string& text) {
    in6_addr address{};
    if (::inet_pton(AF_INET6, text.c_str(), &address) != 1) return std::nullopt;
    return address;
}

std::string text_of(const in6_addr& address) {
    char text[INET6_ADDRSTRLEN] = "";
    ::inet_ntop(AF_INET6, &address, text, sizeof text);
    return text;
}

/// Between "ipv6:" and the port, brackets as such or as %5B and %5D.
std::string host_of_v6(std::string_view rest) {
    std::string host{rest.substr(0, rest.rfind(':'))};
    for (const std::string_view mark : {"[", "]", "%5B", "%5D", "%5b", "%5d"})
        if (const auto at = host.find(mark); at != std::string::npos) host.erase(at, mark.size());
    host = host.substr(0, host.find('%'));  // a zone is the receiver's, not the sender's
    const auto address = v6_of(host);
    return address ? text_of(*address) : host;
}

}  // namespace

std::optional<milliseconds> AttemptBuckets::wait(const AttemptRate& rate, const std::string& name,
                                                 Instant now) const {
    const auto found = buckets_.find(name);
    if (found == buckets_.end()) return std::nullopt;
    return wait_for(rate, found->second.full_at, now);
}

void AttemptBuckets::take(const AttemptRate& rate, const std::string& name, Instant now,
                          std::size_t most) {
    if (buckets_.size() >= most && !buckets_.contains(name)) drop_fullest();
    Bucket& bucket = buckets_[name];
    ++bucket.tries;
    move(name, bucket, with_try(rate, bucket.full_at, now));
}

void AttemptBuckets::give_back(const AttemptRate& rate, const std::string& name) {
    const auto found = buckets_.find(name);
    if (found == buckets_.end()) return;
    Bucket& bucket = found->second;
    if (--bucket.tries > 0) return move(name, bucket, bucket.full_at - rate.refill);
    by_full_at_.erase({bucket.full_at, name});
    buckets_.erase(found);
}

void AttemptBuckets::forget(Instant full_before) {
    while (!by_full_at_.empty() && by_full_at_.begin()->first <= full_before) drop_fullest();
}

void AttemptBuckets::move(const std::string& name, Bucket& bucket, Instant to) {
    by_full_at_.erase({bucket.full_at, name});
    by_full_at_.insert({to, name});
    bucket.full_at = to;
}

void AttemptBuckets::drop_fullest() {
    buckets_.erase(by_full_at_.begin()->second);
    by_full_at_.erase(by_full_at_.begin());
}

AttemptLimiter::AttemptLimiter(AttemptLimits limits) : limits_{limits} {
    assert(limits_.address.burst > 0 && limits_.overall.burst > 0 && limits_.network.burst > 0 &&
           limits_.most_addresses > 0);
}

std::optional<milliseconds> AttemptLimiter::take(const std::string& address, Instant now) {
    const std::string network = network_of(address);
    const std::scoped_lock lock{mutex_};
    failed_.forget(now - limits_.forgets);
    networks_.forget(now - limits_.forgets);
    // Only an address that has failed itself is refused, and what it is refused costs the others
    // nothing.
    if (const auto own = failed_.wait(limits_.address, address, now)) {
        const milliseconds shared =
            networks_.wait(limits_.network, network, now).value_or(milliseconds{0});
        const milliseconds all = wait_for(limits_.overall, overall_, now);
        if (const auto wait = std::max({*own, shared, all}); wait.count() > 0) return wait;
    }
    failed_.take(limits_.address, address, now, limits_.most_addresses);
    if (!network.empty()) networks_.take(limits_.network, network, now, limits_.most_addresses);
    overall_ = with_try(limits_.overall, overall_, now);
    return std::nullopt;
}

void AttemptLimiter::give_back(const std::string& address) {
    const std::string network = network_of(address);
    const std::scoped_lock lock{mutex_};
    overall_ -= limits_.overall.refill;
    failed_.give_back(limits_.address, address);
    networks_.give_back(limits_.network, network);
}

std::size_t AttemptLimiter::addresses() const {
    const std::scoped_lock lock{mutex_};
    return failed_.size();
}

Attempt::~Attempt() {
    if (!failed_) limiter_.give_back(address_);
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

std::string network_of(const std::string& address) {
    auto network = v6_of(address);
    if (!network || IN6_IS_ADDR_V4MAPPED(&*network)) return {};
    std::fill(network->s6_addr + 8, network->s6_addr + 16, std::uint8_t{0});
    return text_of(*network) + "/64";
}

}  // namespace courthand::server::auth
