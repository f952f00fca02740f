#include <map>
#include <mutex>
#include <utility>

#include "courthand/standings/chain.h"
#include "standings/embedded_chains.h"

namespace courthand::standings {
namespace {

/// Built-in chains, each read when it is first asked for. Entries are never removed, so that
/// pointers to them stay good.
class Library {
  public:
    const Chain* find(std::string_view id) {
        const std::scoped_lock lock{mutex_};
        const auto known = read_.find(id);
        if (known != read_.end()) return &known->second;
        const std::string_view text = chain_text(id);
        if (text.empty()) return nullptr;
        auto read = read_chain(text);
        // A built-in file that cannot be read is a bug of the build, caught by the chain tests.
        auto& chain = std::get<Chain>(read);
        return &read_.emplace(std::string{id}, std::move(chain)).first->second;
    }

  private:
    std::mutex mutex_;
    std::map<std::string, Chain, std::less<>> read_;
};

}  // namespace

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

const Chain* find_chain(std::string_view id) {
    static Library library;
    return library.find(id);
}

}  // namespace courthand::standings
