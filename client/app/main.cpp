// courthand: the three seats of a venue, enrolment of a device, and export of its records.
#include <CLI/CLI.hpp>

#include <cstdio>
#include <iostream>
#include <string>

#include <fmt/format.h>

#include "client/app/screens.h"
#include "client/app/stop_signal.h"
#include "client/app/text_board.h"
#include "client/enrol/code_source.h"
#include "client/enrol/enrolment.h"
#include "client/journal/export.h"
#include "wire/message_limits.h"
#include "wire/tls_floor.h"

namespace {

using namespace courthand::client;

int run_enrol(EnrolmentWish wish, const std::string& code_file) {
    const auto code = code_of_words(wish.code, code_file, std::cin);
    if (const auto* wrong = std::get_if<std::string>(&code)) {
        fmt::print(stderr, "Not enrolled. {}\n", *wrong);
        return exit_bad_usage;
    }
    wish.code = std::get<TypedCode>(code).text;
    const auto result = enrol(wish);
    if (const auto* wrong = std::get_if<std::string>(&result)) {
        fmt::print(stderr, "Not enrolled. {}\n", *wrong);
        return exit_failed;
    }
    const auto& device = std::get<Device>(result);
    const std::string court = device.court == 0 ? "" : fmt::format(" of court {}", device.court);
    fmt::print("Enrolled as the {} seat{} at {}.\n", word(device.seat), court, device.server);
    return exit_fine;
}

int run_export(const std::string& folder, const std::string& out) {
    const auto result = export_journal(folder, out);
    if (const auto* wrong = std::get_if<std::string>(&result)) {
        fmt::print(stderr, "{}\n", *wrong);
        return exit_failed;
    }
    fmt::print("{} entries written to {}.\n", std::get<std::size_t>(result), out);
    return exit_fine;
}

int run_seat(SeatOptions options, const std::string& seat, int argc, char** argv) {
    const auto known = seat_of(seat);
    if (!known || options.folder.empty()) {
        fmt::print(stderr,
                   "Say which seat and which device folder: courthand --seat table|desk|head "
                   "--data DIR (see courthand --help).\n");
        return exit_bad_usage;
    }
    options.seat = *known;
    if (!options.text) return run_screen(options, argc, argv);
    if (options.seat == Seat::head) return run_text_board(options);
    fmt::print(stderr, "Only the head seat has a text form: courthand --seat head --text.\n");
    return exit_bad_usage;
}

}  // namespace

int main(int argc, char** argv) {
    courthand::wire::require_tls_1_3();
    listen_for_stop();
    CLI::App app{"Courthand: table, desk and head seat of an indoor-volleyball venue."};
    app.set_version_flag("--version", std::string{"courthand " COURTHAND_VERSION});
    SeatOptions options;
    std::string seat;
    app.add_option("--seat", seat, "table, desk or head")
        ->check(CLI::IsMember({"table", "desk", "head"}));
    app.add_option("--court", options.court, "court of a table, from 1")
        ->check(CLI::Range(1U, courthand::wire::most_courts));
    std::string seat_folder;
    app.add_option("--data", seat_folder, "folder of this device");
    app.add_option("--server", options.server, "HOST:PORT; default: as at enrolment");
    app.add_flag("--dark", options.dark, "dark theme");
    app.add_flag("--text", options.text, "the board as text, refreshing (head seat)");

    EnrolmentWish wish;
    std::string folder;
    CLI::App* enrol_app =
        app.add_subcommand("enrol", "enrol this device with a code from the desk");
    enrol_app->add_option("--server", wish.server, "HOST:PORT")->required();
    auto* code = enrol_app->add_option("--code", wish.code,
                                       "the code from the desk, blanks do not matter; - reads it "
                                       "from standard input, unseen by other accounts");
    std::string code_file;
    auto* file = enrol_app->add_option("--code-file", code_file, "file that holds the code");
    code->excludes(file);
    enrol_app->add_option("--data", folder, "folder of this device")->required();
    enrol_app->add_option("--name", wish.name, "name in the desk's list; default: the host's");

    std::string out;
    CLI::App* export_app =
        app.add_subcommand("export", "write the records of a device as JSON lines");
    export_app->add_option("--data", folder, "folder of the device")->required();
    export_app->add_option("--out", out, "file to write")->required();
    app.require_subcommand(0, 1);

    CLI11_PARSE(app, argc, argv);
    wish.folder = folder;
    options.folder = seat_folder;
    if (*enrol_app) return run_enrol(wish, code_file);
    if (*export_app) return run_export(folder, out);
    return run_seat(options, seat, argc, argv);
}
