#include "event_file/lines.h"

#include <fmt/format.h>
#include <google/protobuf/util/json_util.h>

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>
#include <utility>
#include <vector>

#include "event_file/base64.h"

namespace courthand::event_file {
namespace {

using Json = nlohmann::ordered_json;

/// Thrown inside this file only: what is wrong with a line.
struct Unfit {
    std::string message;
};

// --- values -------------------------------------------------------------------------------------

std::uint32_t number_of(const Json& value, const std::string& name) {
    if (!value.is_number_unsigned() ||
        value.get<std::uint64_t>() > std::numeric_limits<std::uint32_t>::max())
        throw Unfit{fmt::format("\"{}\" must be a whole number", name)};
    return value.get<std::uint32_t>();
}
std::string text_of(const Json& value, const std::string& name) {
    if (!value.is_string()) throw Unfit{fmt::format("\"{}\" must be a text", name)};
    return value.get<std::string>();
}
std::vector<std::string> texts_of(const Json& value, const std::string& name) {
    if (!value.is_array()) throw Unfit{fmt::format("\"{}\" must be a list of texts", name)};
    std::vector<std::string> texts;
    for (const Json& one : value) texts.push_back(text_of(one, name));
    return texts;
}

const Json& at(const Json& object, const char* key) {
    const auto found = object.find(key);
    if (found == object.end()) throw Unfit{fmt::format("\"{}\" is missing", key)};
    return *found;
}
std::uint32_t number_at(const Json& object, const char* key) {
    return number_of(at(object, key), key);
}
std::uint16_t place_at(const Json& object, const char* key) {
    const std::uint32_t number = number_at(object, key);
    if (number > std::numeric_limits<std::uint16_t>::max())
        throw Unfit{fmt::format("\"{}\" is too large", key)};
    return static_cast<std::uint16_t>(number);
}
std::string text_at(const Json& object, const char* key) {
    return text_of(at(object, key), key);
}
const Json& list_at(const Json& object, const char* key) {
    const Json& list = at(object, key);
    if (!list.is_array()) throw Unfit{fmt::format("\"{}\" must be a list", key)};
    return list;
}
wire::Uuid uuid_at(const Json& object, const char* key) {
    const auto id = wire::Uuid::from_text(text_at(object, key));
    if (!id) throw Unfit{fmt::format("\"{}\" must be an id of 36 characters", key)};
    return *id;
}
wire::Hash hash_at(const Json& object, const char* key) {
    const std::string text = text_at(object, key);
    wire::Hash hash{};
    const auto digit = [](char c) -> int {
        if (c >= '0' && c <= '9') return c - '0';
        if (c >= 'a' && c <= 'f') return c - 'a' + 10;
        return -1;
    };
    bool good = text.size() == 2 * hash.size();
    for (std::size_t i = 0; good && i < hash.size(); ++i) {
        const int high = digit(text[2 * i]);
        const int low = digit(text[2 * i + 1]);
        good = high >= 0 && low >= 0;
        if (good) hash[i] = static_cast<std::uint8_t>(16 * high + low);
    }
    if (!good) throw Unfit{fmt::format("\"{}\" must be 64 digits from 0 to 9 and a to f", key)};
    return hash;
}
std::string base64_of(const Json& object, const char* key) {
    auto bytes = from_base64(text_at(object, key));
    if (!bytes) throw Unfit{fmt::format("\"{}\" is not base64", key)};
    return *std::move(bytes);
}

/// A key that is not known may be what a newer program says; leaving it out would lose it.
void only(const Json& object, std::initializer_list<std::string_view> keys) {
    for (const auto& [key, value] : object.items())
        if (std::find(keys.begin(), keys.end(), key) == keys.end())
            throw Unfit{fmt::format("\"{}\" is not known here", key)};
}

// --- lines: each kind written and read ----------------------------------------------------------

Json json_of(const HeadLine& line) {
    return {{"courthand", "event"},
            {"version", line.version},
            {"tournament", line.tournament.to_text()},
            {"name", line.name}};
}
HeadLine head_line(const Json& json) {
    if (text_at(json, "courthand") != "event") throw Unfit{"this is no event file"};
    HeadLine line;
    line.version = static_cast<int>(number_at(json, "version"));
    // Of another form nothing more is understood.
    if (line.version != version) return line;
    only(json, {"courthand", "version", "tournament", "name"});
    line.tournament = uuid_at(json, "tournament");
    line.name = text_at(json, "name");
    return line;
}

Json json_of(const FactLine& line) {
    Json json{
        {"fact", line.number}, {"hash", wire::to_hex(line.hash)}, {"bytes", to_base64(line.bytes)}};
    if (line.beside.state == Beside::State::erased)
        json["beside"] = "erased";
    else if (line.beside.state == Beside::State::left_out)
        json["beside"] = "left out";
    else if (line.beside.state == Beside::State::words)
        json["beside"] = {{"salt", to_base64(line.beside.salt)}, {"text", line.beside.text}};
    return json;
}
Beside beside_of(const Json& json) {
    const auto found = json.find("beside");
    if (found == json.end()) return {};
    if (found->is_object()) {
        only(*found, {"salt", "text"});
        return {Beside::State::words, base64_of(*found, "salt"), text_at(*found, "text")};
    }
    const std::string word = text_of(*found, "beside");
    if (word == "erased") return {Beside::State::erased, {}, {}};
    if (word == "left out") return {Beside::State::left_out, {}, {}};
    throw Unfit{"\"beside\" must be salt and text, \"erased\" or \"left out\""};
}
FactLine fact_line(const Json& json) {
    only(json, {"fact", "hash", "bytes", "beside"});
    return {number_at(json, "fact"), hash_at(json, "hash"), base64_of(json, "bytes"),
            beside_of(json)};
}

Json json_of(const MatchLine& line) {
    std::string text;
    google::protobuf::util::JsonPrintOptions options;
    options.preserve_proto_field_names = true;
    // A match of our own making has no text that is not UTF-8.
    (void)google::protobuf::util::MessageToJsonString(line.plan, &text, options);
    return {{"match", Json::parse(text)}};
}
MatchLine match_line(const Json& json) {
    only(json, {"match"});
    MatchLine line;
    const auto read =
        google::protobuf::util::JsonStringToMessage(at(json, "match").dump(), &line.plan);
    if (!read.ok()) throw Unfit{fmt::format("\"match\": {}", std::string{read.message()})};
    if (line.plan.match_id().size() != wire::Uuid::size)
        throw Unfit{"\"match_id\" must be an id of 16 bytes"};
    return line;
}

Json json_of(const EntryLine& line) {
    Json json{{"entry", line.number},
              {"of", line.match.to_text()},
              {"hash", wire::to_hex(line.hash)},
              {"bytes", to_base64(line.bytes)}};
    if (!line.signature.empty()) json["signature"] = to_base64(line.signature);
    return json;
}
EntryLine entry_line(const Json& json) {
    only(json, {"entry", "of", "hash", "bytes", "signature"});
    EntryLine line{uuid_at(json, "of"),
                   number_at(json, "entry"),
                   hash_at(json, "hash"),
                   base64_of(json, "bytes"),
                   {}};
    if (json.contains("signature")) line.signature = base64_of(json, "signature");
    return line;
}

Json json_of(const BranchLine& line) {
    Json json{{"branch", line.branch},
              {"of", line.match.to_text()},
              {"entry", line.number},
              {"hash", wire::to_hex(line.hash)},
              {"bytes", to_base64(line.bytes)}};
    if (!line.signature.empty()) json["signature"] = to_base64(line.signature);
    return json;
}
BranchLine branch_line(const Json& json) {
    only(json, {"branch", "of", "entry", "hash", "bytes", "signature"});
    BranchLine line{uuid_at(json, "of"),   number_at(json, "branch"), number_at(json, "entry"),
                    hash_at(json, "hash"), base64_of(json, "bytes"),  {}};
    if (line.branch == 0) throw Unfit{"\"branch\" must be a number from 1"};
    if (json.contains("signature")) line.signature = base64_of(json, "signature");
    return line;
}

Json json_of(const event::Drawn& drawn) {
    Json pools = Json::array();
    for (const event::DrawnPool& pool : drawn.pools)
        pools.push_back({{"pool", pool.pool}, {"teams", pool.teams}});
    return {{"draw", drawn.division}, {"fact", drawn.fact}, {"pools", pools}};
}
event::Drawn draw_line(const Json& json) {
    only(json, {"draw", "fact", "pools"});
    event::Drawn drawn{text_at(json, "draw"), number_at(json, "fact"), {}};
    for (const Json& pool : list_at(json, "pools"))
        drawn.pools.push_back({text_at(pool, "pool"), texts_of(at(pool, "teams"), "teams")});
    return drawn;
}

Json json_of(const event::PoolPlaces& pool) {
    Json order = Json::array();
    for (const event::PoolPlace& place : pool.places)
        order.push_back({{"place", place.place}, {"teams", place.teams}});
    return {{"places", pool.division},
            {"pool", pool.pool},
            {"order", order},
            {"withdrawn", pool.withdrawn}};
}
event::PoolPlaces places_line(const Json& json) {
    only(json, {"places", "pool", "order", "withdrawn"});
    event::PoolPlaces pool{text_at(json, "places"),
                           text_at(json, "pool"),
                           {},
                           texts_of(at(json, "withdrawn"), "withdrawn")};
    for (const Json& place : list_at(json, "order"))
        pool.places.push_back({place_at(place, "place"), texts_of(at(place, "teams"), "teams")});
    return pool;
}

Json json_of(const event::FinalPlaces& finals) {
    Json places = Json::array();
    for (const event::TeamPlace& place : finals.places)
        places.push_back({{"first", place.first}, {"last", place.last}, {"team", place.team}});
    return {{"final", finals.division}, {"places", places}};
}
event::FinalPlaces final_line(const Json& json) {
    only(json, {"final", "places"});
    event::FinalPlaces finals{text_at(json, "final"), {}};
    for (const Json& place : list_at(json, "places"))
        finals.places.push_back(
            {place_at(place, "first"), place_at(place, "last"), text_at(place, "team")});
    return finals;
}

Json json_of(const RecordLine& line) {
    Json json{{"record", line.record.to_text()},
              {"entries", line.head.seq},
              {"hash", wire::to_hex(line.head.hash)}};
    if (line.beside.entries != 0)
        json["branches"] = {{"entries", line.beside.entries},
                            {"hash", wire::to_hex(line.beside.hash)}};
    return json;
}
RecordLine record_line(const Json& json) {
    only(json, {"record", "entries", "hash", "branches"});
    RecordLine line{
        uuid_at(json, "record"), {number_at(json, "entries"), hash_at(json, "hash")}, {}};
    if (const auto found = json.find("branches"); found != json.end()) {
        only(*found, {"entries", "hash"});
        line.beside = {number_at(*found, "entries"), hash_at(*found, "hash")};
    }
    return line;
}

Json json_of(const EndLine& line) {
    return {{"end", line.lines}, {"hash", wire::to_hex(line.hash)}};
}
EndLine end_line(const Json& json) {
    only(json, {"end", "hash"});
    return {number_at(json, "end"), hash_at(json, "hash")};
}

/// No line of ours is deeper: a plan of a match has its teams in it.
constexpr int most_depth = 8;

Json parsed(std::string_view text) {
    return Json::parse(text, [](int depth, Json::parse_event_t, Json&) {
        if (depth > most_depth)
            throw Unfit{fmt::format("what stands in it is more than {} levels deep", most_depth)};
        return true;
    });
}

/// The first key says what a line is.
Line line_of(const Json& json) {
    if (!json.is_object() || json.empty()) throw Unfit{"this is no line of an event file"};
    const std::string kind = json.begin().key();
    if (kind == "courthand") return head_line(json);
    if (kind == "fact") return fact_line(json);
    if (kind == "match") return match_line(json);
    if (kind == "entry") return entry_line(json);
    if (kind == "branch") return branch_line(json);
    if (kind == "draw") return draw_line(json);
    if (kind == "places") return places_line(json);
    if (kind == "final") return final_line(json);
    if (kind == "record") return record_line(json);
    if (kind == "end") return end_line(json);
    throw Unfit{fmt::format("no line of an event file begins with \"{}\"", kind)};
}

}  // namespace

BesideRecord beside_record(const std::vector<wire::Hash>& hashes) {
    if (hashes.empty()) return {};
    std::string all;
    for (const wire::Hash& hash : hashes) all.append(hash.begin(), hash.end());
    return {static_cast<std::uint32_t>(hashes.size()), wire::sha256(all)};
}

std::string written(const Line& line) {
    return std::visit([](const auto& kind) { return json_of(kind).dump(); }, line);
}

std::variant<Line, Fault> read_line(std::string_view text, std::uint32_t number) {
    const auto broken = [&](std::string why) {
        return Fault{number, std::move(why),
                     "take the file as it was exported, or export the event again"};
    };
    if (text.size() > most_line_bytes)
        return broken(fmt::format("this line has {} bytes, at most {} are allowed", text.size(),
                                  most_line_bytes));
    try {
        return line_of(parsed(text));
    } catch (const Json::parse_error& error) {
        return broken(
            fmt::format("this line is broken at its character {}: it is no JSON", error.byte));
    } catch (const Unfit& unfit) {
        return broken(unfit.message);
    } catch (const Json::exception& error) {
        return broken(error.what());
    }
}

}  // namespace courthand::event_file
