#include <algorithm>
#include <optional>

#include "courthand/match/entry.h"

namespace courthand {
namespace {

/// Working view of a record: which corrections are themselves struck, and what each fact says now.
class Resolver {
  public:
    explicit Resolver(std::span<const Record> records)
        : records_{records}, struck_(records.size(), false), amended_by_(records.size(), 0) {}

    Effective resolve() {
        strike();
        amend();
        place();
        return std::move(result_);
    }

  private:
    [[nodiscard]] bool earlier(EntryNumber target, std::size_t i) const {
        return target >= 1 && target <= i;
    }

    // A strike may itself be struck, so the last word is found from the end.
    void strike() {
        for (std::size_t i = records_.size(); i-- > 0;) {
            const auto* s = std::get_if<Strike>(&records_[i]);
            if (s == nullptr) continue;
            if (!earlier(s->target, i))
                result_.without_effect.push_back(number(i));
            else if (!struck_[i])
                struck_[s->target - 1] = true;
        }
    }

    // The latest amendment counts; one that names a correction without a fact changes nothing.
    void amend() {
        for (std::size_t i = 0; i < records_.size(); ++i) {
            const auto* a = std::get_if<Amend>(&records_[i]);
            if (a == nullptr || struck_[i]) continue;
            if (!earlier(a->target, i) || fact_of(a->target - 1) == nullptr)
                result_.without_effect.push_back(number(i));
            else
                amended_by_[a->target - 1] = number(i);
        }
    }

    // Inserted facts follow their entry in the order in which they were inserted. Trees of inserts
    // are walked with a stack of our own, so that a hostile record cannot exhaust the call stack.
    void place() {
        std::vector<std::vector<std::size_t>> after(records_.size() + 1);
        for (std::size_t i = 0; i < records_.size(); ++i) {
            const auto* in = std::get_if<Insert>(&records_[i]);
            if (in == nullptr) continue;
            if (in->after > i)
                result_.without_effect.push_back(number(i));
            else
                after[in->after].push_back(i);
        }
        std::vector<std::size_t> pending;
        const auto walk = [&](std::size_t key) {
            for (auto it = after[key].rbegin(); it != after[key].rend(); ++it)
                pending.push_back(*it);
            while (!pending.empty()) {
                const std::size_t i = pending.back();
                pending.pop_back();
                emit(i);
                for (auto it = after[i + 1].rbegin(); it != after[i + 1].rend(); ++it)
                    pending.push_back(*it);
            }
        };
        walk(0);
        for (std::size_t i = 0; i < records_.size(); ++i) {
            if (!std::holds_alternative<Fact>(records_[i])) continue;
            emit(i);
            walk(i + 1);
        }
        std::sort(result_.without_effect.begin(), result_.without_effect.end());
    }

    void emit(std::size_t i) {
        if (struck_[i]) return;
        const EntryNumber amendment = amended_by_[i];
        const Fact* fact =
            amendment == 0 ? fact_of(i) : &std::get<Amend>(records_[amendment - 1]).fact;
        if (fact != nullptr) result_.entries.push_back(Entry{number(i), *fact});
    }

    [[nodiscard]] const Fact* fact_of(std::size_t i) const {
        if (const auto* fact = std::get_if<Fact>(&records_[i])) return fact;
        if (const auto* in = std::get_if<Insert>(&records_[i])) return &in->fact;
        return nullptr;
    }

    [[nodiscard]] static EntryNumber number(std::size_t i) {
        return static_cast<EntryNumber>(i + 1);
    }

    std::span<const Record> records_;
    std::vector<bool> struck_;
    std::vector<EntryNumber> amended_by_;
    Effective result_;
};

}  // namespace

Effective effective(std::span<const Record> records) {
    return Resolver{records}.resolve();
}

}  // namespace courthand
