// What a head or desk seat needs before it can connect.
#pragma once

#include <memory>
#include <string>
#include <variant>

#include "client/app/seat_options.h"
#include "client/sync/grpc_courier.h"
#include "venue/board_client.h"

namespace grpc {
class Channel;
}

namespace courthand::client {

struct EnrolledSeat {
    Device device;  ///< with the server of the command line, if it named one
    Credentials credentials;
};

/// Otherwise a sentence: not enrolled, enrolled for another seat, no server known.
[[nodiscard]] std::variant<EnrolledSeat, std::string> enrolled_seat(const SeatOptions& options);
/// How this seat watches the board: its tries are spread from those of other devices.
[[nodiscard]] venue::BoardClient::Options board_options(const EnrolledSeat& seat);
/// Who acts in the record from this desk, by its function: "desk 0000a1", at most 64 bytes. The
/// name of the device in the desk's list is what a person typed and may be a person's; the end of
/// its id is not, and the list of devices and the audit have the whole of it.
[[nodiscard]] std::string desk_author(const Device& device);
/// Connects by itself when it is first used and after every loss.
[[nodiscard]] std::shared_ptr<grpc::Channel> open_channel(const EnrolledSeat& seat);

}  // namespace courthand::client
