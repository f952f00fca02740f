#include "server/audit/audit_trail.h"

#include <fmt/format.h>

#include <utility>

#include "server/domain/fault_shield.h"

namespace courthand::server::audit {

namespace {

constexpr std::size_t most_act_bytes = 64;
constexpr std::size_t most_subject_bytes = 128;
constexpr std::size_t most_detail_bytes = 500;
constexpr const char* all_others = "others";

/// Whole letters only, and nothing that a list on a screen cannot show.
std::string tidy(std::string text, std::size_t most) {
    if (text.size() > most) {
        text.resize(most);
        while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0U) == 0x80U)
            text.pop_back();
        if (!text.empty() && static_cast<unsigned char>(text.back()) >= 0xC0U) text.pop_back();
    }
    for (char& c : text)
        if (static_cast<unsigned char>(c) < 0x20U || c == 0x7F) c = ' ';
    return text;
}

AuditEntry tidy(AuditEntry entry) {
    entry.act = tidy(std::move(entry.act), most_act_bytes);
    entry.subject = tidy(std::move(entry.subject), most_subject_bytes);
    entry.detail = tidy(std::move(entry.detail), most_detail_bytes);
    if (entry.id.nil()) entry.id = new_uuid();
    return entry;
}

}  // namespace

AuditTrail::AuditTrail(AuditStore& store, SteadyNow now, WallNow wall)
    : store_{store}, now_{std::move(now)}, wall_{std::move(wall)}, thread_{[this] { run(); }} {}

AuditTrail::~AuditTrail() {
    {
        const std::scoped_lock lock{mutex_};
        stop_ = true;
    }
    wake_.notify_all();
    thread_.join();
}

AuditTrail::Act::Act(AuditTrail& trail, AuditEntry entry)
    : trail_{trail}, entry_{tidy(std::move(entry))} {
    entry_.at = trail_.wall_();
    row_ = trail_.store_.with_act(entry_);
}

void AuditTrail::Act::done(const std::optional<auth::Caller>& who) {
    const bool kept = row_ && row_->kept();
    row_.reset();
    if (kept) return;
    if (who) entry_.who = who;
    trail_.act(std::move(entry_));
}

void AuditTrail::act(AuditEntry entry) {
    entry = tidy(std::move(entry));
    entry.at = wall_();
    const Status kept = store_.add(entry);
    if (kept.ok()) return;
    // A database that is away is told of by the follower, once.
    if (!kept.passing()) return log_fault("audit", kept.text());
    const std::scoped_lock lock{mutex_};
    put(std::move(entry));
}

void AuditTrail::refused(const std::string& source, AuditEntry entry) {
    entry = tidy(std::move(entry));
    entry.at = wall_();
    entry.refused = true;
    const std::scoped_lock lock{mutex_};
    close_windows(false);
    const bool known = sources_.contains(source) || sources_.size() < most_sources;
    const auto [found, fresh] = sources_.try_emplace(known ? source : all_others);
    Source& from = found->second;
    if (fresh) from.since = now_();
    if (from.rows >= most_refusals_a_minute) {
        ++from.more;
        from.last = std::move(entry);
        return;
    }
    ++from.rows;
    put(std::move(entry));
}

/// Needs the lock.
void AuditTrail::put(AuditEntry entry) {
    if (waiting_.size() >= most_waiting) {
        ++lost_;
        return;
    }
    waiting_.push_back(std::move(entry));
    wake_.notify_one();
}

/// Needs the lock.
void AuditTrail::close_windows(bool all) {
    const SteadyTime now = now_();
    for (auto it = sources_.begin(); it != sources_.end();) {
        if (!all && now - it->second.since < window) {
            ++it;
            continue;
        }
        if (it->second.more > 0) {
            AuditEntry more = std::move(it->second.last);
            more.id = new_uuid();
            more.detail = tidy(fmt::format("{} more refusals within a minute; the last: {}",
                                           it->second.more, more.detail),
                               most_detail_bytes);
            put(std::move(more));
        }
        it = sources_.erase(it);
    }
}

bool AuditTrail::write_waiting() {
    while (true) {
        AuditEntry next;
        {
            const std::scoped_lock lock{mutex_};
            if (waiting_.empty()) return true;
            next = waiting_.front();
        }
        const Status kept = store_.add(next);
        if (kept.passing()) return false;
        if (!kept.ok()) log_fault("audit", kept.text());
        const std::scoped_lock lock{mutex_};
        waiting_.pop_front();
    }
}

/// Needs the lock.
void AuditTrail::tell_loss() {
    if (lost_ == 0 || waiting_.size() >= most_waiting) return;
    AuditEntry loss;
    loss.id = new_uuid();
    loss.at = wall_();
    loss.act = "audit";
    loss.detail = fmt::format("{} lines were lost while the database was away", lost_);
    loss.refused = true;
    put(std::move(loss));
    lost_ = 0;
}

void AuditTrail::run() {
    constexpr std::chrono::milliseconds pause{500};
    // At the end: who asks a server to stop kills it when it takes too long.
    constexpr std::chrono::milliseconds not_waited_for_twice{1000};
    FaultShield writing{"audit"};
    FaultShield counting{"windows of the audit"};
    while (true) {
        bool written = false;
        const auto began = std::chrono::steady_clock::now();
        (void)writing.run([&] { written = write_waiting(); });
        const bool lets_wait =
            !written && std::chrono::steady_clock::now() - began >= not_waited_for_twice;
        std::unique_lock lock{mutex_};
        (void)counting.run([this] {
            close_windows(stop_);
            tell_loss();
        });
        if (stop_) {
            lock.unlock();
            if (lets_wait) return;
            (void)writing.run([this] { (void)write_waiting(); });
            return;
        }
        const auto ready = [&] { return stop_ || (written && !waiting_.empty()); };
        wake_.wait_for(lock, pause, ready);
    }
}

}  // namespace courthand::server::audit
