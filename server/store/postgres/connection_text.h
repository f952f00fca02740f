// What a person names as the database, made ready for our connections.
#pragma once

#include <string>

namespace courthand::server::postgres {

/// The same database with our time limits and session settings added. They travel in the
/// connection text and not as SET commands, so that they hold from the first moment of every
/// connection. What the person set keeps its value. A text that libpq cannot read is handed back
/// as it is: connecting says then what is wrong with it.
[[nodiscard]] std::string with_session_settings(const std::string& dsn);

}  // namespace courthand::server::postgres
