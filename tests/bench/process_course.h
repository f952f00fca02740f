// Memory and processor time of another process in the course of a measurement.
#pragma once

#include <sys/types.h>

#include <chrono>
#include <vector>

namespace courthand::bench {

struct ProcessSample {
    double minutes = 0;  ///< since the first sample
    double rss_mb = 0;   ///< resident memory, in 10^6 bytes
    double cpu_s = 0;    ///< processor time since the process began, user and system
    unsigned threads = 0;
};

/// Not thread-safe.
class ProcessCourse {
  public:
    explicit ProcessCourse(pid_t process) : process_{process} {}

    /// Takes a sample now. Throws std::runtime_error when the process has gone.
    const ProcessSample& look();
    /// A sample that was taken elsewhere; later than all before.
    void add(const ProcessSample& sample) { samples_.push_back(sample); }

    [[nodiscard]] const std::vector<ProcessSample>& samples() const noexcept { return samples_; }
    /// These need a sample.
    [[nodiscard]] double median_rss_mb() const;
    [[nodiscard]] double most_rss_mb() const;
    /// How the memory grew, by least squares, without the first third: until then caches fill.
    [[nodiscard]] double rss_mb_per_minute() const;
    /// Cores it kept busy, on average.
    [[nodiscard]] double cores() const;

  private:
    pid_t process_;
    std::chrono::steady_clock::time_point began_;
    std::vector<ProcessSample> samples_;
};

/// The same once, without a course.
[[nodiscard]] ProcessSample look_at_process(pid_t process);

}  // namespace courthand::bench
