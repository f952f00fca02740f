#include "script/written.h"

#include <fmt/format.h>

namespace courthand::script {

std::string written(Team team) {
    return team == Team::A ? "A" : "B";
}

std::string written(Jersey jersey) {
    return jersey.worn() ? std::to_string(static_cast<unsigned>(jersey.number())) : "none";
}

std::string written(const LiberoBox& box) {
    switch (box.mark) {
        case LiberoBox::Mark::blank:
            return "?";
        case LiberoBox::Mark::none:
            return "none";
        case LiberoBox::Mark::number:
            return written(box.number);
    }
    return {};
}

std::string written(Score score) {
    return fmt::format("{} {}", score.a, score.b);
}

std::string written_text(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (c == '\n')
            out += "\\n";
        else if (c == '\t')
            out += "\\t";
        else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
            out += ' ';
        else
            out += c;
    }
    return out + '"';
}

}  // namespace courthand::script
