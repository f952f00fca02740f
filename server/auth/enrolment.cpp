#include "server/auth/enrolment.h"

#include <algorithm>

#include "server/auth/entry_signature.h"
#include "wire/enrolment_code.h"
#include "wire/message_limits.h"

namespace courthand::server::auth {

namespace {

constexpr std::string_view new_code_cure = "ask the desk for a new enrolment code";

Refusal refused(Refusal::Kind kind, std::string message) {
    return {kind, std::move(message), std::string{new_code_cure}};
}

bool is_secret(std::string_view text) {
    return text.size() == wire::secret_digits &&
           std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
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

// A secret that a code still alive already has would enrol a device for the wrong seat.
bool taken(EnrolmentStore& store, const std::string& lookup, const std::string& hash) {
    const auto codes = store.codes_like(lookup);
    return std::any_of(codes.begin(), codes.end(),
                       [&](const StoredCode& code) { return code.hash == hash; });
}

std::optional<Refusal> check_code(const StoredCode& code, Instant now) {
    if (code.used) return refused(Refusal::Kind::used_code, "this code has been used");
    if (code.expires <= now) return refused(Refusal::Kind::expired_code, "this code has expired");
    if (code.tries_left == 0)
        return refused(Refusal::Kind::no_tries_left, "too many wrong digits: this code is dead");
    return std::nullopt;
}

OrRefusal<StoredCode> find_code(EnrolmentStore& store, const Authority& authority,
                                std::string_view secret, Instant now) {
    if (!is_secret(secret))
        return refused(Refusal::Kind::wrong_code, "an enrolment code has six secret digits");
    const std::string lookup{secret.substr(0, 1)};
    const std::string hash = authority.seal(secret);
    for (const StoredCode& code : store.codes_like(lookup)) {
        if (code.hash != hash) continue;
        if (auto refusal = check_code(code, now)) return *refusal;
        return code;
    }
    store.count_wrong_try(lookup);
    return Refusal{Refusal::Kind::wrong_code, "no such enrolment code",
                   "check the digits; if they are right, " + std::string{new_code_cure}};
}

bool good_name(std::string_view name) {
    return !name.empty() && wire::fits(name, wire::most_name_bytes);
}

}  // namespace

OrRefusal<IssuedCode> issue_code(EnrolmentStore& store, const Authority& authority,
                                 const CodeWish& wish, Instant now) {
    if (auto refusal = check_wish(wish)) return *refusal;
    const auto der = wire::certificate_der(authority.certificate_pem());
    constexpr int most_draws = 20;
    for (int draw = 0; der && draw < most_draws; ++draw) {
        const auto shown = wire::EnrolmentCode::make_random(*der);
        StoredCode code;
        code.hash = authority.seal(shown.secret());
        code.lookup = shown.secret().substr(0, 1);
        if (taken(store, code.lookup, code.hash)) continue;
        code.seat = wish.seat;
        code.court = wish.court;
        code.expires = now + wish.lives;
        code.tries_left = most_tries;
        store.add_code(code);
        return IssuedCode{shown.to_text(), code.expires};
    }
    return Refusal{Refusal::Kind::failed, "no new code could be made", "try again"};
}

OrRefusal<Enrolled> enrol(EnrolmentStore& store, const Authority& authority,
                          const EnrolmentRequest& request, Instant now) {
    if (!good_name(request.device_name))
        return Refusal{Refusal::Kind::bad_request, "the device has no readable name",
                       "give it one of up to 64 letters"};
    OrRefusal<StoredCode> found = find_code(store, authority, request.secret, now);
    if (const Refusal* refusal = std::get_if<Refusal>(&found)) return *refusal;
    const StoredCode& code = std::get<StoredCode>(found);

    const Caller who{DeviceId{new_uuid()}, code.seat, code.court};
    // Signed before the code is used up: an unreadable request must not cost the code.
    OrRefusal<std::string> certificate = authority.sign_device(request.request, who, now);
    if (const Refusal* refusal = std::get_if<Refusal>(&certificate)) return *refusal;

    const Device device{who, std::string{request.device_name}, now, std::nullopt,
                        public_key_of(std::get<std::string>(certificate))};
    if (!store.use_code(code.hash, device, now))
        return refused(Refusal::Kind::used_code, "this code has been used");
    return Enrolled{who, std::get<std::string>(std::move(certificate)),
                    authority.certificate_pem()};
}

}  // namespace courthand::server::auth
