#include "client/journal/export.h"

#include <openssl/evp.h>

#include <fstream>

#include <fmt/format.h>

#include "client/journal/files.h"
#include "client/journal/sqlite.h"

namespace courthand::client {
namespace {

std::string base64(const std::string& bytes) {
    std::string text(4 * ((bytes.size() + 2) / 3) + 1, '\0');
    const int size = EVP_EncodeBlock(reinterpret_cast<unsigned char*>(text.data()),
                                     reinterpret_cast<const unsigned char*>(bytes.data()),
                                     static_cast<int>(bytes.size()));
    text.resize(static_cast<std::size_t>(size));
    return text;
}

std::string hex(const std::string& bytes) {
    std::string text;
    for (const char c : bytes) text += fmt::format("{:02x}", static_cast<unsigned char>(c));
    return text;
}

}  // namespace

std::variant<std::size_t, std::string> export_journal(const std::filesystem::path& folder,
                                                      const std::filesystem::path& out) {
    const auto file = journal_file(folder);
    if (!std::filesystem::exists(file))
        return fmt::format("There is no journal in {}: check the folder.", folder.string());
    std::ofstream stream{out, std::ios::binary | std::ios::trunc};
    std::size_t count = 0;
    try {
        sqlite::Database db{file.string()};
        db.check_in_on_close(false);
        db.exec("PRAGMA query_only=ON");
        std::string query = "SELECT match_id, epoch, seq, entry_id, hash, bytes, state FROM entry";
        // Files of an older program have no such table.
        if (db.number("SELECT COUNT(*) FROM sqlite_schema WHERE name = 'aside'") != 0)
            query +=
                " UNION ALL SELECT match_id, epoch, seq, entry_id, hash, bytes, 'aside' FROM aside";
        sqlite::Statement rows = db.prepare(query + " ORDER BY match_id, seq");
        while (rows.step()) {
            stream << fmt::format(
                R"({{"match":"{}","epoch":{},"seq":{},"entry":"{}","sha256":"{}","state":"{}",)"
                R"("bytes":"{}"}})"
                "\n",
                rows.bytes(0), rows.number(1), rows.number(2), rows.bytes(3), hex(rows.bytes(4)),
                rows.bytes(6), base64(rows.bytes(5)));
            ++count;
        }
    } catch (const sqlite::SqliteFailure& failure) {
        return fmt::format(
            "The journal in {} cannot be read ({}). Close every courthand that uses "
            "this folder and try again.",
            folder.string(), failure.what());
    }
    stream.close();
    if (!stream)
        return fmt::format("{} cannot be written: check the disk and the rights there.",
                           out.string());
    return count;
}

}  // namespace courthand::client
