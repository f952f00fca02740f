#include "courthand/standings/chain.h"
#include "standings/embedded_chains.h"

namespace courthand::standings {

std::vector<std::string> chain_ids() {
    std::vector<std::string> ids;
    for (const EmbeddedChain& file : embedded_chains()) ids.emplace_back(file.id);
    return ids;
}

std::string_view chain_text(std::string_view id) {
    for (const EmbeddedChain& file : embedded_chains())
        if (file.id == id) return file.text;
    return {};
}

}  // namespace courthand::standings
