// The main function of a program that measures once and long.
#pragma once

#include <cstdio>
#include <exception>

namespace courthand::bench {

/// The exit code: that of `measure`, or 1 with one line on standard error when it throws.
inline int measurement_main(const char* program, int (*measure)(int, char**), int argc,
                            char** argv) {
    try {
        return measure(argc, argv);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s: %s\n", program, error.what());
        return 1;
    }
}

}  // namespace courthand::bench
