#include "client/enrol/begun_enrolment.h"

#include <utility>
#include <vector>

#include <fmt/format.h>

#include "client/enrol/device_folder.h"
#include "client/enrol/key_pair.h"

namespace courthand::client {
namespace {

using Settings = std::vector<std::pair<std::string, std::string>>;

// Settings of an answer that is not dealt with. The certificate names it; without one there is
// none.
constexpr const char* answer_prefix = "enrolling/";
constexpr const char* certificate_setting = "enrolling/certificate";
constexpr const char* authority_setting = "enrolling/authority";

std::optional<EnrolmentAnswer> kept_answer(const Journal& journal) {
    EnrolmentAnswer answer;
    answer.certificate = journal.setting(certificate_setting);
    if (answer.certificate.empty()) return std::nullopt;
    answer.authority = journal.setting(authority_setting);
    answer.device = kept_device(journal, answer_prefix);
    answer.device.enrolled = true;
    return answer;
}

/// The answer is dealt with: no row of it stays. With `settings`, all or nothing.
std::optional<std::string> close_answer(Journal& journal, Settings settings) {
    for (auto& [name, value] : journal.settings(answer_prefix)) settings.emplace_back(name, "");
    if (auto error = journal.store({}, settings)) return std::move(error->message);
    // Rows without a value mean nothing: should this fail, they lie there until the next time.
    static_cast<void>(journal.trim_settings(answer_prefix, 0));
    return std::nullopt;
}

/// An answer whose key is lost. Without the key nobody can use it; a device that was enrolled
/// before goes on as what it was, and one whose files were written already is the new one.
std::optional<std::string> give_up(const std::filesystem::path& folder, Journal& journal,
                                   const EnrolmentAnswer& answer) {
    const auto credentials = load_credentials(folder);
    const auto* whole = std::get_if<Credentials>(&credentials);
    if (whole == nullptr)
        return std::string{
            "The enrolment of this device was cut short and its key is lost. Ask the desk for "
            "another code and enrol it anew."};
    const bool written = whole->certificate == answer.certificate;
    return close_answer(journal, written ? settings_of(answer.device) : Settings{});
}

/// The answer to another key's request: with the kept key nobody can use it. It is dropped, so that
/// the device goes on as what it was until it is enrolled again.
std::string refuse(const std::filesystem::path& folder, Journal& journal) {
    if (auto wrong = close_answer(journal, {})) return *std::move(wrong);
    return fmt::format(
        "The enrolment of this device was cut short, and the certificate it was given belongs to "
        "another key: it was refused, and nothing was changed. Ask the desk for another code and "
        "enrol the device again: courthand enrol --server HOST:PORT --code \"CODE\" --data {}",
        folder.string());
}

}  // namespace

std::optional<JournalError> keep_answer(Journal& journal, const EnrolmentAnswer& answer) {
    Settings settings = settings_of(answer.device, answer_prefix);
    settings.emplace_back(authority_setting, answer.authority);
    settings.emplace_back(certificate_setting, answer.certificate);
    return journal.store({}, settings);
}

std::optional<std::string> finish_enrolment(const std::filesystem::path& folder, Journal& journal) {
    const auto answer = kept_answer(journal);
    if (!answer) return std::nullopt;
    const EnrolmentKey kept{folder};
    const auto key = kept.kept();
    if (!key) return give_up(folder, journal, *answer);
    if (!belong_together(*key, answer->certificate)) return refuse(folder, journal);
    if (auto wrong = save_credentials(folder, {*key, answer->certificate, answer->authority}))
        return wrong;
    // Both at once: the device has its identity, and nothing is left to do.
    if (auto wrong = close_answer(journal, settings_of(answer->device))) return wrong;
    kept.forget();
    return std::nullopt;
}

}  // namespace courthand::client
