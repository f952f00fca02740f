#include "client/enrol/device_folder.h"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <iterator>
#include <utility>

#include <fmt/format.h>

#include "client/enrol/key_pair.h"

namespace courthand::client {
namespace fs = std::filesystem;
namespace {

constexpr const char* key_name = "device.key";
constexpr const char* certificate_name = "device.crt";
constexpr const char* authority_name = "authority.crt";
constexpr const char* enrolment_key_name = "enrolling.key";

std::string read_file(const fs::path& file) {
    std::ifstream in{file, std::ios::binary};
    return std::string{std::istreambuf_iterator<char>{in}, std::istreambuf_iterator<char>{}};
}

bool flush_folder(const fs::path& folder) {
    const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle < 0) return false;
    const bool flushed = ::fsync(handle) == 0;
    ::close(handle);
    return flushed;
}

/// Written beside, flushed, then renamed: a crash leaves the old file or the new one.
std::optional<std::string> write_file(const fs::path& file, const std::string& text) {
    const std::string fresh = file.string() + ".new";
    const auto wrong = [&] {
        return fmt::format("{} cannot be written: {}. Check the disk and the rights on the folder.",
                           file.string(), std::strerror(errno));
    };
    const int handle = ::open(fresh.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    if (handle < 0) return wrong();
    const bool written =
        ::write(handle, text.data(), text.size()) == static_cast<ssize_t>(text.size()) &&
        ::fsync(handle) == 0;
    if (!written) {
        const std::string words = wrong();
        ::close(handle);
        return words;
    }
    ::close(handle);
    if (::rename(fresh.c_str(), file.c_str()) != 0 || !flush_folder(file.parent_path()))
        return wrong();
    return std::nullopt;
}

void make_private(const fs::path& folder) {
    std::error_code failed;
    fs::create_directories(folder, failed);
    fs::permissions(folder, fs::perms::owner_all, failed);
}

}  // namespace

std::optional<std::string> save_credentials(const fs::path& folder,
                                            const Credentials& credentials) {
    make_private(folder);
    const std::array<std::pair<const char*, const std::string*>, 3> files{{
        {authority_name, &credentials.authority},
        {key_name, &credentials.key},
        {certificate_name, &credentials.certificate},
    }};
    for (const auto& [name, text] : files)
        if (auto wrong = write_file(folder / name, *text)) return wrong;
    return std::nullopt;
}

std::variant<Credentials, std::string> load_credentials(const fs::path& folder) {
    Credentials credentials{read_file(folder / key_name), read_file(folder / certificate_name),
                            read_file(folder / authority_name)};
    if (credentials.key.empty() || credentials.certificate.empty() || credentials.authority.empty())
        return fmt::format(
            "The device in {0} is not enrolled. Ask the desk for a code, then: "
            "courthand enrol --server HOST:PORT --code \"CODE\" --data {0}",
            folder.string());
    if (!belong_together(credentials.key, credentials.certificate))
        return fmt::format(
            "Key and certificate of the device in {0} do not belong together: {1} was made for "
            "another key than {2}. Ask the desk for a code and enrol it anew: courthand enrol "
            "--server HOST:PORT --code \"CODE\" --data {0}",
            folder.string(), certificate_name, key_name);
    return credentials;
}

std::variant<SigningRequest, std::string> EnrolmentKey::request() const {
    if (auto kept = signing_request_of(read_file(file()))) return *std::move(kept);
    auto made = make_signing_request();
    if (!made)
        return std::string{"This machine cannot make a key: its random source does not work."};
    make_private(folder_);
    if (auto wrong = write_file(file(), made->key_pem)) return *std::move(wrong);
    return *std::move(made);
}

std::optional<std::string> EnrolmentKey::kept() const {
    auto read = signing_request_of(read_file(file()));
    if (!read) return std::nullopt;
    return std::move(read->key_pem);
}

void EnrolmentKey::forget() const {
    std::error_code failed;
    fs::remove(file(), failed);
}

fs::path EnrolmentKey::file() const {
    return folder_ / enrolment_key_name;
}

}  // namespace courthand::client
