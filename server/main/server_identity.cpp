#include "server/main/server_identity.h"

#include <fstream>
#include <stdexcept>

#include "server/domain/ids.h"

namespace courthand::server {

ServerName count_start(const std::filesystem::path& data) {
    const std::filesystem::path file = data / "server-id";
    const std::filesystem::path fresh = data / "server-id.new";
    ServerName name;
    if (std::ifstream in{file}; !(in >> name.id >> name.starts)) name = {to_text(new_uuid()), 0};
    ++name.starts;
    {
        std::ofstream out{fresh, std::ios::trunc};
        out << name.id << ' ' << name.starts << '\n';
        if (!out.flush())
            throw std::runtime_error{"cannot write in the data folder " + data.string() +
                                     "; make room or choose another with --data"};
    }
    std::filesystem::rename(fresh, file);
    return name;
}

}  // namespace courthand::server
