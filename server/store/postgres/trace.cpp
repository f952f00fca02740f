#include "server/store/postgres/trace.h"

#include <cassert>
#include <utility>

namespace courthand::server::postgres {
namespace {

thread_local Trace* of_this_thread = nullptr;

}  // namespace

Trace::Trace(Write write) : write_{std::move(write)} {
    assert(of_this_thread == nullptr);
    of_this_thread = this;
}

Trace::~Trace() {
    of_this_thread = nullptr;
}

void leave_trace(pqxx::work& work, const Trace::Added& added) {
    if (of_this_thread == nullptr) return;
    of_this_thread->write_(work, added);
    of_this_thread->left_ = true;
}

}  // namespace courthand::server::postgres
