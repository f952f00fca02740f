#include "client/sync/server_mark.h"

namespace courthand::client {

ServerMark ServerMark::of(const v1::ResponseHeader& header) {
    return {header.server_id(), header.incarnation(), header.generation(), header.server_version()};
}

std::string ServerMark::to_bytes() const {
    v1::ResponseHeader header;
    header.set_server_id(server_id);
    header.set_incarnation(incarnation);
    header.set_generation(generation);
    header.set_server_version(version);
    return header.SerializeAsString();
}

ServerMark ServerMark::from_bytes(const std::string& bytes) {
    v1::ResponseHeader header;
    if (!header.ParseFromString(bytes)) return {};
    return of(header);
}

}  // namespace courthand::client
