#include "server/auth/enrolment.h"

#include "wire/enrolment_code.h"
#include "wire/message_limits.h"

namespace courthand::server::auth {

namespace {

constexpr std::string_view new_code_cure = "ask the desk for a new enrolment code";

Status refused(StatusCode code, std::string message) {
    return Status::failed(code, std::move(message), std::string{new_code_cure});
}

/// What the store met is the database's matter, whatever it is called there: the same code may be
/// tried again. What else fails here without the caller's fault is OpenSSL's.
Status of_database(Status why) {
    if (!why.passing()) why.code = StatusCode::unavailable;
    return why;
}

Status check_wish(const CodeWish& wish) {
    const auto bad = [](std::string message, std::string cure) {
        return Status::failed(StatusCode::invalid, std::move(message), std::move(cure));
    };
    if (wish.seat == Seat::table && (wish.court == 0 || wish.court > most_courts))
        return bad("a table needs a court", "name one from 1 to " + std::to_string(most_courts));
    if (wish.seat != Seat::table && wish.court != 0)
        return bad("only a table is bound to a court", "leave the court out");
    if (wish.lives < std::chrono::minutes{1} || wish.lives > code_lives_at_most)
        return bad("a code lives from 1 minute to 24 hours", "choose a time in between");
    return Status::fine();
}

Result<StoredCode> find_code(EnrolmentStore& store, const Authority& authority,
                             std::string_view secret) {
    if (wire::is_code_secret(secret)) {
        auto code = store.code(authority.seal(secret));
        if (!code.ok()) return of_database(code.status());
        if (*code) return **std::move(code);
    }
    return Status::failed(StatusCode::not_allowed, "no such enrolment code",
                          "check what was typed; if it is right, " + std::string{new_code_cure});
}

bool good_name(std::string_view name) {
    return !name.empty() && wire::fits(name, wire::most_name_bytes);
}

Result<Enrolled> sign(const Authority& authority, const EnrolmentRequest& request,
                      const Caller& who, Instant now) {
    Result<std::string> certificate = authority.sign_device(request.request, who, now);
    if (!certificate.ok()) return certificate.status();
    return Enrolled{who, *std::move(certificate), authority.certificate_pem()};
}

/// The device that used the code, when it has this very key: it asks again.
Result<Caller> enrolled_before(EnrolmentStore& store, const std::string& hash,
                               const std::string& key) {
    const auto code = store.code(hash);
    if (!code.ok()) return of_database(code.status());
    const bool used = *code && (*code)->used_by;
    const auto device = used ? store.device(*(*code)->used_by)
                             : Result<std::optional<Device>>{std::optional<Device>{}};
    if (!device.ok()) return of_database(device.status());
    if (!*device || (*device)->key != key)
        return refused(StatusCode::not_allowed, "this code has been used");
    if ((*device)->revoked)
        return refused(StatusCode::not_enrolled, "the desk has withdrawn this device");
    return (*device)->who;
}

}  // namespace

Result<IssuedCode> issue_code(EnrolmentStore& store, const Authority& authority,
                              const CodeWish& wish, Instant now) {
    if (Status wished = check_wish(wish); !wished.ok()) return wished;
    const auto live = store.live_codes(now);
    if (!live.ok()) return live.status();
    if (*live >= most_live_codes)
        return Status::failed(StatusCode::unavailable,
                              std::to_string(most_live_codes) + " codes wait to be used already",
                              "use them, or wait until some expire");
    const auto der = wire::certificate_der(authority.certificate_pem());
    if (!der)
        return Status::failed(StatusCode::unavailable, "no new code could be made", "try again");
    const auto shown = wire::EnrolmentCode::make_random(*der);
    StoredCode code;
    code.hash = authority.seal(shown.secret());
    code.seat = wish.seat;
    code.court = wish.court;
    code.expires = now + wish.lives;
    if (Status added = store.add_code(code, now); !added.ok()) return added;
    return IssuedCode{shown.to_text(), code.expires};
}

Result<Enrolled> enrol(EnrolmentStore& store, const Authority& authority,
                       const EnrolmentRequest& request, Instant now) {
    if (!good_name(request.device_name))
        return Status::failed(StatusCode::invalid, "the device has no readable name",
                              "give it one of up to 64 letters");
    const Result<StoredCode> found = find_code(store, authority, request.secret);
    if (!found.ok()) return found.status();
    const StoredCode& code = *found;
    if (code.expires <= now) return refused(StatusCode::not_allowed, "this code has expired");
    const Result<std::string> key = key_of_request(request.request);
    if (!key.ok()) return key.status();

    Device device{{DeviceId{new_uuid()}, code.seat, code.court},
                  std::string{request.device_name},
                  now,
                  std::nullopt,
                  *key};
    // Signed before the code is used up: what cannot be signed must not cost the code.
    Result<Enrolled> enrolled = sign(authority, request, device.who, now);
    if (!enrolled.ok()) return enrolled;
    // Asked also of a code that is used: what is handed out then must be durable, too.
    const Result<bool> used = store.use_code(code.hash, device, now);
    if (!used.ok()) return of_database(used.status());
    if (*used) return enrolled;
    const auto before = enrolled_before(store, code.hash, device.key);
    if (!before.ok()) return before.status();
    return sign(authority, request, *before, now);
}

}  // namespace courthand::server::auth
