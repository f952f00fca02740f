// How a call of the store or the domain went: few categories, a sentence and a cure.
//
// Exceptions of the database stop at the stores, which map them to these values at one place,
// store/postgres/error_map.cpp. Plain values; safe between threads.
#pragma once

#include <cassert>
#include <cstdint>
#include <string>
#include <utility>
#include <variant>

namespace courthand::server {

enum class StatusCode : std::uint8_t {
    ok,
    not_found,
    already_exists,
    conflict,      ///< another writer or a later change stands against it
    not_allowed,   ///< the caller may not do this, whoever else may
    not_enrolled,  ///< the caller is nobody here: no certificate, or one that is not good any more
    invalid,       ///< cannot be read or breaks a limit; sending it again changes nothing
    not_now,       ///< what it is about is not as it would have to be: ended, or of another kind
    exhausted,     ///< a bounded queue is full; try again a little later
    unavailable,   ///< the database cannot be reached; nothing was done
    in_doubt,      ///< the connection broke during commit; asking again finds out
    schema_newer,  ///< the database was made by a newer program
    internal,
};

[[nodiscard]] const char* word(StatusCode code) noexcept;

struct Status {
    StatusCode code = StatusCode::ok;
    std::string message;  ///< what is wrong and where
    std::string cure;     ///< what a person or program can do about it; may be empty

    [[nodiscard]] bool ok() const noexcept { return code == StatusCode::ok; }
    /// False when it is not known whether the change was made.
    [[nodiscard]] bool definite() const noexcept { return code != StatusCode::in_doubt; }
    /// May the same call succeed later without any change to it?
    [[nodiscard]] bool passing() const noexcept {
        return code == StatusCode::exhausted || code == StatusCode::unavailable ||
               code == StatusCode::in_doubt;
    }
    /// Message and cure as one line.
    [[nodiscard]] std::string text() const {
        return cure.empty() ? message : message + "; " + cure;
    }

    [[nodiscard]] static Status fine() { return {}; }
    [[nodiscard]] static Status failed(StatusCode code, std::string message,
                                       std::string cure = {}) {
        assert(code != StatusCode::ok);
        return {code, std::move(message), std::move(cure)};
    }
};

/// A value, or why there is none.
template <class T>
class [[nodiscard]] Result {
  public:
    Result(T value) : content_{std::move(value)} {}
    Result(Status status) : content_{std::move(status)} {
        assert(!std::get<Status>(content_).ok());
    }

    [[nodiscard]] bool ok() const noexcept { return content_.index() == 0; }
    [[nodiscard]] T& operator*() & {
        assert(ok());
        return std::get<0>(content_);
    }
    [[nodiscard]] const T& operator*() const& {
        assert(ok());
        return std::get<0>(content_);
    }
    [[nodiscard]] T&& operator*() && {
        assert(ok());
        return std::get<0>(std::move(content_));
    }
    [[nodiscard]] T* operator->() { return &**this; }
    [[nodiscard]] const T* operator->() const { return &**this; }
    [[nodiscard]] Status status() const {
        return ok() ? Status::fine() : std::get<Status>(content_);
    }

  private:
    std::variant<T, Status> content_;
};

}  // namespace courthand::server
