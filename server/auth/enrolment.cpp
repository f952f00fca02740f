#include "server/auth/enrolment.h"

#include "wire/enrolment_code.h"
#include "wire/message_limits.h"

namespace courthand::server::auth {

namespace {

constexpr std::string_view new_code_cure = "ask the desk for a new enrolment code";

Refusal refused(Refusal::Kind kind, std::string message) {
    return {kind, std::move(message), std::string{new_code_cure}};
}

std::optional<Refusal> check_wish(const CodeWish& wish) {
    const auto bad = [](std::string message, std::string cure) {
        return Refusal{Refusal::Kind::bad_request, std::move(message), std::move(cure)};
    };
    if (wish.seat == Seat::table && (wish.court == 0 || wish.court > most_courts))
        return bad("a table needs a court", "name one from 1 to " + std::to_string(most_courts));
    if (wish.seat != Seat::table && wish.court != 0)
        return bad("only a table is bound to a court", "leave the court out");
    if (wish.lives < std::chrono::minutes{1} || wish.lives > code_lives_at_most)
        return bad("a code lives from 1 minute to 24 hours", "choose a time in between");
    return std::nullopt;
}

OrRefusal<StoredCode> find_code(EnrolmentStore& store, const Authority& authority,
                                std::string_view secret) {
    if (wire::is_code_secret(secret))
        if (auto code = store.code(authority.seal(secret))) return *std::move(code);
    return Refusal{Refusal::Kind::wrong_code, "no such enrolment code",
                   "check what was typed; if it is right, " + std::string{new_code_cure}};
}

bool good_name(std::string_view name) {
    return !name.empty() && wire::fits(name, wire::most_name_bytes);
}

OrRefusal<Enrolled> sign(const Authority& authority, const EnrolmentRequest& request,
                         const Caller& who, Instant now) {
    OrRefusal<std::string> certificate = authority.sign_device(request.request, who, now);
    if (const Refusal* refusal = std::get_if<Refusal>(&certificate)) return *refusal;
    return Enrolled{who, std::get<std::string>(std::move(certificate)),
                    authority.certificate_pem()};
}

/// The device that used the code, when it has this very key: it asks again.
OrRefusal<Caller> enrolled_before(EnrolmentStore& store, const std::string& hash,
                                  const std::string& key) {
    const auto code = store.code(hash);
    const auto device = code && code->used_by ? store.device(*code->used_by) : std::nullopt;
    if (!device || device->key != key)
        return refused(Refusal::Kind::used_code, "this code has been used");
    if (device->revoked)
        return refused(Refusal::Kind::revoked_device, "the desk has withdrawn this device");
    return device->who;
}

}  // namespace

OrRefusal<IssuedCode> issue_code(EnrolmentStore& store, const Authority& authority,
                                 const CodeWish& wish, Instant now) {
    if (auto refusal = check_wish(wish)) return *refusal;
    if (store.live_codes(now) >= most_live_codes)
        return Refusal{Refusal::Kind::failed,
                       std::to_string(most_live_codes) + " codes wait to be used already",
                       "use them, or wait until some expire"};
    const auto der = wire::certificate_der(authority.certificate_pem());
    if (!der) return Refusal{Refusal::Kind::failed, "no new code could be made", "try again"};
    const auto shown = wire::EnrolmentCode::make_random(*der);
    StoredCode code;
    code.hash = authority.seal(shown.secret());
    code.seat = wish.seat;
    code.court = wish.court;
    code.expires = now + wish.lives;
    store.add_code(code, now);
    return IssuedCode{shown.to_text(), code.expires};
}

OrRefusal<Enrolled> enrol(EnrolmentStore& store, const Authority& authority,
                          const EnrolmentRequest& request, Instant now) {
    if (!good_name(request.device_name))
        return Refusal{Refusal::Kind::bad_request, "the device has no readable name",
                       "give it one of up to 64 letters"};
    OrRefusal<StoredCode> found = find_code(store, authority, request.secret);
    if (const Refusal* refusal = std::get_if<Refusal>(&found)) return *refusal;
    const StoredCode& code = std::get<StoredCode>(found);
    if (code.expires <= now) return refused(Refusal::Kind::expired_code, "this code has expired");
    const OrRefusal<std::string> key = key_of_request(request.request);
    if (const Refusal* refusal = std::get_if<Refusal>(&key)) return *refusal;

    Device device{{DeviceId{new_uuid()}, code.seat, code.court},
                  std::string{request.device_name},
                  now,
                  std::nullopt,
                  std::get<std::string>(key)};
    // Signed before the code is used up: what cannot be signed must not cost the code.
    OrRefusal<Enrolled> enrolled = sign(authority, request, device.who, now);
    if (std::holds_alternative<Refusal>(enrolled)) return enrolled;
    // Asked also of a code that is used: what is handed out then must be durable, too.
    if (store.use_code(code.hash, device, now)) return enrolled;
    const auto before = enrolled_before(store, code.hash, device.key);
    if (const Refusal* refusal = std::get_if<Refusal>(&before)) return *refusal;
    return sign(authority, request, std::get<Caller>(before), now);
}

}  // namespace courthand::server::auth
