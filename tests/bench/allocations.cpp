#include "tests/bench/allocations.h"

#include <atomic>
#include <cstdlib>
#include <new>

namespace courthand::bench {
namespace {
std::atomic<std::size_t> count{0};
}
std::size_t allocations() noexcept {
    return count.load(std::memory_order_relaxed);
}

void* counted(std::size_t size) {
    count.fetch_add(1, std::memory_order_relaxed);
    if (void* const memory = std::malloc(size != 0 ? size : 1)) return memory;
    throw std::bad_alloc{};
}

}  // namespace courthand::bench

void* operator new(std::size_t size) {
    return courthand::bench::counted(size);
}
void* operator new[](std::size_t size) {
    return courthand::bench::counted(size);
}
void operator delete(void* memory) noexcept {
    std::free(memory);
}
void operator delete[](void* memory) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    std::free(memory);
}
void operator delete[](void* memory, std::size_t) noexcept {
    std::free(memory);
}
