#include "wire/certificate_time.h"

#include <fmt/chrono.h>
#include <openssl/bio.h>
#include <openssl/err.h>
#include <openssl/pem.h>
#include <openssl/x509.h>

#include <ctime>
#include <memory>

namespace courthand::wire {
namespace {

using Memory = std::unique_ptr<BIO, decltype(&BIO_free)>;
using Certificate = std::unique_ptr<X509, decltype(&X509_free)>;

Certificate read(std::string_view pem) {
    const Memory source{BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())), BIO_free};
    Certificate certificate{
        source ? PEM_read_bio_X509(source.get(), nullptr, nullptr, nullptr) : nullptr, X509_free};
    ERR_clear_error();
    return certificate;
}

std::string words(const std::tm& time) {
    return fmt::format("{:%Y-%m-%d %H:%M} UTC", time);
}

std::string words(const ASN1_TIME* time) {
    std::tm parts{};
    return ASN1_TIME_to_tm(time, &parts) == 1 ? words(parts) : "an unknown time";
}

}  // namespace

std::optional<std::string> clock_complaint(std::string_view certificate_pem,
                                           std::chrono::system_clock::time_point clock) {
    const Certificate certificate = read(certificate_pem);
    if (!certificate) return std::nullopt;
    const std::time_t now = std::chrono::system_clock::to_time_t(clock);
    const ASN1_TIME* const from = X509_get0_notBefore(certificate.get());
    const ASN1_TIME* const until = X509_get0_notAfter(certificate.get());
    const std::string says = "The clock of this device says " + words(fmt::gmtime(now));
    if (ASN1_TIME_cmp_time_t(from, now) > 0)
        return fmt::format(
            "{}, but the certificate it works with was made for use from {} on: the clock is "
            "behind. Set date and time of this device, then try again.",
            says, words(from));
    if (ASN1_TIME_cmp_time_t(until, now) < 0)
        return fmt::format(
            "{}, but the certificate it works with ended at {}. Set date and time of this device; "
            "if they are right, the certificate must be renewed: tell the desk.",
            says, words(until));
    return std::nullopt;
}

}  // namespace courthand::wire
