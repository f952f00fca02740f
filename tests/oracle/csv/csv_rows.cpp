// Reads one comma-separated file from its input and prints what the server's reader makes of it,
// for csv_tables.py: cells as hexadecimal bytes, one row a line, "!" and the line for an error.
#include <cstdio>
#include <iostream>
#include <iterator>

#include "server/desk/csv.h"

int main() {
    using namespace courthand::server::desk;
    // Files one after the other, each behind its length.
    for (std::size_t size = 0; std::cin >> size;) {
        std::cin.get();
        std::string text(size, '\0');
        std::cin.read(text.data(), static_cast<std::streamsize>(size));
        const auto read = read_csv(text);
        if (const auto* error = std::get_if<CsvError>(&read)) {
            std::printf("! %u\n", error->line);
        } else {
            for (const CsvRow& row : std::get<std::vector<CsvRow>>(read)) {
                std::printf("%u", row.line);
                for (const std::string& cell : row.cells) {
                    std::printf(" .");
                    for (const char c : cell) std::printf("%02x", static_cast<unsigned char>(c));
                }
                std::printf("\n");
            }
        }
        std::printf("=\n");
    }
}
