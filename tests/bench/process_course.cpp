#include "tests/bench/process_course.h"

#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

namespace courthand::bench {
namespace {

std::string path_of(pid_t process, const char* file) {
    return "/proc/" + std::to_string(process) + "/" + file;
}

/// Fields after the name of the program, which may hold blanks and brackets.
double processor_seconds(pid_t process) {
    std::ifstream in{path_of(process, "stat")};
    std::string line;
    std::getline(in, line);
    const auto name_end = line.rfind(')');
    if (name_end == std::string::npos) throw std::runtime_error{"the process has gone"};
    std::istringstream fields{line.substr(name_end + 1)};
    std::string skipped;
    constexpr int before_user_time = 11;
    for (int i = 0; i < before_user_time; ++i) fields >> skipped;
    double user = 0;
    double system = 0;
    fields >> user >> system;
    return (user + system) / static_cast<double>(sysconf(_SC_CLK_TCK));
}

void read_status(pid_t process, ProcessSample& sample) {
    std::ifstream in{path_of(process, "status")};
    std::string word;
    double rss_kib = 0;
    while (in >> word) {
        if (word == "VmRSS:") in >> rss_kib;
        if (word == "Threads:") in >> sample.threads;
    }
    sample.rss_mb = rss_kib * 1024 / 1e6;
}

}  // namespace

ProcessSample look_at_process(pid_t process) {
    ProcessSample sample;
    sample.cpu_s = processor_seconds(process);
    read_status(process, sample);
    return sample;
}

const ProcessSample& ProcessCourse::look() {
    const auto now = std::chrono::steady_clock::now();
    if (samples_.empty()) began_ = now;
    samples_.push_back(look_at_process(process_));
    samples_.back().minutes = std::chrono::duration<double, std::ratio<60>>(now - began_).count();
    return samples_.back();
}

double ProcessCourse::median_rss_mb() const {
    std::vector<double> all;
    for (const ProcessSample& sample : samples_) all.push_back(sample.rss_mb);
    std::sort(all.begin(), all.end());
    return all[all.size() / 2];
}

double ProcessCourse::most_rss_mb() const {
    double most = 0;
    for (const ProcessSample& sample : samples_) most = std::max(most, sample.rss_mb);
    return most;
}

double ProcessCourse::rss_mb_per_minute() const {
    const double from = samples_.back().minutes / 3;
    double n = 0;
    double sum_x = 0;
    double sum_y = 0;
    double sum_xx = 0;
    double sum_xy = 0;
    for (const ProcessSample& sample : samples_) {
        if (sample.minutes < from) continue;
        n += 1;
        sum_x += sample.minutes;
        sum_y += sample.rss_mb;
        sum_xx += sample.minutes * sample.minutes;
        sum_xy += sample.minutes * sample.rss_mb;
    }
    const double spread = n * sum_xx - sum_x * sum_x;
    return spread > 0 ? (n * sum_xy - sum_x * sum_y) / spread : 0;
}

double ProcessCourse::cores() const {
    constexpr double seconds = 60;
    const double time = (samples_.back().minutes - samples_.front().minutes) * seconds;
    return time > 0 ? (samples_.back().cpu_s - samples_.front().cpu_s) / time : 0;
}

}  // namespace courthand::bench
