#include "server/publish/web_door.h"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <microhttpd.h>
#include <netdb.h>
#include <sys/resource.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <chrono>
#include <cstring>
#include <mutex>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

namespace courthand::server::publish {
namespace {

constexpr std::size_t piece_bytes = 4096;  ///< that a reader is given at a time
constexpr std::string_view beat_text = ":\n\n";

/// Nothing of a page comes from elsewhere, and no other page may hold it.
constexpr const char* policy =
    "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'none'";

/// Numbers of news go on from the clock: another start, or another server, is seen to be another.
std::uint64_t first_number() {
    return static_cast<std::uint64_t>(std::chrono::duration_cast<std::chrono::microseconds>(
                                          std::chrono::system_clock::now().time_since_epoch())
                                          .count());
}

/// Files and sockets that this process needs beside its readers.
constexpr rlim_t kept_for_others = 1024;

/// Each reader holds a socket. Answers how many there may be of what the system allows this
/// process.
unsigned readers_allowed() {
    rlimit limit{};
    if (getrlimit(RLIMIT_NOFILE, &limit) != 0) return WebDoor::most_connections;
    const rlim_t wanted = WebDoor::most_connections + kept_for_others;
    if (limit.rlim_cur < wanted) {
        limit.rlim_cur = std::min(limit.rlim_max, wanted);
        setrlimit(RLIMIT_NOFILE, &limit);
    }
    const rlim_t half = limit.rlim_cur / 2;  // of a process that has next to nothing
    const rlim_t left =
        limit.rlim_cur > 2 * kept_for_others ? limit.rlim_cur - kept_for_others : half;
    return static_cast<unsigned>(std::min<rlim_t>(left, WebDoor::most_connections));
}

struct AddressList {
    addrinfo* first = nullptr;
    ~AddressList() {
        if (first != nullptr) freeaddrinfo(first);
    }
};

Status no_address(const std::string& listen, const std::string& why) {
    return {StatusCode::invalid, fmt::format("cannot publish at {}: {}", listen, why),
            "write HOST:PORT with --publish, such as 0.0.0.0:8080, with a port that is free"};
}

using Response = std::unique_ptr<MHD_Response, decltype(&MHD_destroy_response)>;

Response response_of(std::string_view text) {
    return {MHD_create_response_from_buffer(text.size(), const_cast<char*>(text.data()),
                                            MHD_RESPMEM_MUST_COPY),
            &MHD_destroy_response};
}

void add(const Response& response, const char* name, const std::string& value) {
    MHD_add_response_header(response.get(), name, value.c_str());
}

MHD_Result queue(MHD_Connection* connection, unsigned code, const Response& response) {
    add(response, "X-Content-Type-Options", "nosniff");
    add(response, "Referrer-Policy", "no-referrer");
    add(response, "Content-Security-Policy", policy);
    return MHD_queue_response(connection, code, response.get());
}

MHD_Result refuse(MHD_Connection* connection, unsigned code, std::string_view why) {
    const Response response = response_of(why);
    add(response, "Content-Type", "text/plain; charset=utf-8");
    if (code == MHD_HTTP_METHOD_NOT_ALLOWED) add(response, "Allow", "GET, HEAD");
    return queue(connection, code, response);
}

std::string_view value(MHD_Connection* connection, MHD_ValueKind kind, const char* name) {
    const char* const found = MHD_lookup_connection_value(connection, kind, name);
    return found == nullptr ? std::string_view{} : std::string_view{found};
}

/// Whether one of the tags in an If-None-Match is this one.
bool names(std::string_view tags, std::string_view etag) {
    return tags == "*" || tags.find(etag) != std::string_view::npos;
}

void let_go(void* file) {
    delete static_cast<std::shared_ptr<const File>*>(file);
}

/// Of the file itself: however many read it slowly, its bytes are held once.
Response response_of(const std::shared_ptr<const File>& file) {
    auto held = std::make_unique<std::shared_ptr<const File>>(file);
    Response response{
        MHD_create_response_from_buffer_with_free_callback_cls(
            file->bytes.size(), const_cast<char*>(file->bytes.data()), &let_go, held.get()),
        &MHD_destroy_response};
    if (response) held.release();  // `let_go` takes it when the response goes
    return response;
}

MHD_Result answer_file(MHD_Connection* connection, const std::shared_ptr<const File>& file) {
    const bool same =
        names(value(connection, MHD_HEADER_KIND, MHD_HTTP_HEADER_IF_NONE_MATCH), file->etag);
    const Response response = response_of(file);
    add(response, "Content-Type", file->type);
    add(response, "ETag", file->etag);
    add(response, "Cache-Control", "no-cache");
    return queue(connection, same ? MHD_HTTP_NOT_MODIFIED : MHD_HTTP_OK, response);
}

std::optional<std::uint64_t> number_of(std::string_view text) {
    std::uint64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size() || text.empty())
        return std::nullopt;
    return number;
}

}  // namespace

/// One reader of the news of a page. Its library's thread asks it for bytes; `guard` of the door is
/// held whenever it is touched.
struct Reader {
    WebDoor::Parts* door = nullptr;
    MHD_Connection* connection = nullptr;
    std::string page;
    std::uint64_t seen = 0;
    std::shared_ptr<const std::string> text;  ///< what is being sent
    std::size_t sent = 0;
    bool beat = false;
    bool waits = false;  ///< suspended
};

struct WebDoor::Parts {
    NewsLine line{first_number()};
    mutable std::mutex guard;
    std::shared_ptr<const Files> files = std::make_shared<const Files>();
    std::set<Reader*> readers;
    bool stopping = false;
    MHD_Daemon* daemon = nullptr;

    std::shared_ptr<const Files> shown() const {
        const std::scoped_lock lock{guard};
        return files;
    }
    MHD_Result answer(MHD_Connection* connection, std::string_view path);
    MHD_Result answer_news(MHD_Connection* connection);
    ssize_t give(Reader& reader, char* buffer, std::size_t room);
    void wake(Reader& reader);
};

namespace {

ssize_t on_room(void* reader, std::uint64_t /*position*/, char* buffer, std::size_t room) {
    auto& self = *static_cast<Reader*>(reader);
    return self.door->give(self, buffer, room);
}

void on_end(void* reader) {
    const std::unique_ptr<Reader> self{static_cast<Reader*>(reader)};
    const std::scoped_lock lock{self->door->guard};
    self->door->readers.erase(self.get());
}

MHD_Result on_request(void* door, MHD_Connection* connection, const char* url, const char* method,
                      const char* /*version*/, const char* /*upload*/, std::size_t* size,
                      void** seen) {
    const std::string_view word{method};
    if (word != MHD_HTTP_METHOD_GET && word != MHD_HTTP_METHOD_HEAD)
        return refuse(connection, MHD_HTTP_METHOD_NOT_ALLOWED, "These pages can only be read.\n");
    // The head is there with the first call, and the answer goes out with the second, or with the
    // first one without a body.
    static char begun;
    if (*seen == nullptr) {
        *seen = &begun;
        return MHD_YES;
    }
    if (*size != 0) {
        *size = 0;
        return MHD_YES;
    }
    std::string_view path{url};
    if (!path.empty() && path.front() == '/') path.remove_prefix(1);
    return static_cast<WebDoor::Parts*>(door)->answer(connection, path);
}

}  // namespace

MHD_Result WebDoor::Parts::answer(MHD_Connection* connection, std::string_view path) {
    if (path == "news") return answer_news(connection);
    const auto all = shown();
    if (all->empty())
        return refuse(connection, MHD_HTTP_SERVICE_UNAVAILABLE, "The server has just begun.\n");
    const auto file = all->find(path.empty() ? std::string_view{"index.html"} : path);
    if (file == all->end())
        return refuse(connection, MHD_HTTP_NOT_FOUND,
                      "There is no such page. The first one is /.\n");
    return answer_file(connection, file->second);
}

MHD_Result WebDoor::Parts::answer_news(MHD_Connection* connection) {
    auto reader = std::make_unique<Reader>();
    reader->door = this;
    reader->connection = connection;
    reader->page = value(connection, MHD_GET_ARGUMENT_KIND, "page");
    const auto again = number_of(value(connection, MHD_HEADER_KIND, "Last-Event-ID"));
    reader->seen = again.value_or(line.last());
    const auto all = shown();
    if (all->empty())
        return refuse(connection, MHD_HTTP_SERVICE_UNAVAILABLE, "The server has just begun.\n");
    const auto file = all->find(reader->page);
    if (file == all->end())
        return refuse(connection, MHD_HTTP_NOT_FOUND,
                      "There is no such page; name one as ?page=.\n");
    if (!again && value(connection, MHD_GET_ARGUMENT_KIND, "stamp") != file->second->stamp)
        reader->text = std::make_shared<const std::string>(event_text("anew", reader->seen, "{}"));
    {
        const std::scoped_lock lock{guard};
        readers.insert(reader.get());
    }
    const Response response{MHD_create_response_from_callback(MHD_SIZE_UNKNOWN, piece_bytes,
                                                              &on_room, reader.get(), &on_end),
                            &MHD_destroy_response};
    reader.release();  // `on_end` takes it when the response goes
    add(response, "Content-Type", "text/event-stream");
    add(response, "Cache-Control", "no-store");
    return queue(connection, MHD_HTTP_OK, response);
}

ssize_t WebDoor::Parts::give(Reader& reader, char* buffer, std::size_t room) {
    const std::scoped_lock lock{guard};
    if (stopping) return MHD_CONTENT_READER_END_OF_STREAM;
    if (!reader.text) {
        NewsLine::Next next = line.next(reader.page, reader.seen);
        reader.seen = next.seen;
        reader.text = std::move(next.text);
        reader.sent = 0;
    }
    std::string_view rest = beat_text;
    if (reader.text)
        rest = std::string_view{*reader.text}.substr(reader.sent);
    else if (!std::exchange(reader.beat, false)) {
        reader.waits = true;
        MHD_suspend_connection(reader.connection);
        return 0;
    }
    const std::size_t given = std::min(room, rest.size());
    std::memcpy(buffer, rest.data(), given);
    reader.sent += given;
    if (reader.text && reader.sent == reader.text->size()) reader.text.reset();
    return static_cast<ssize_t>(given);
}

/// Needs `guard`.
void WebDoor::Parts::wake(Reader& reader) {
    if (!std::exchange(reader.waits, false)) return;
    MHD_resume_connection(reader.connection);
}

WebDoor::WebDoor(std::unique_ptr<Parts> parts) : parts_{std::move(parts)} {}

Result<std::unique_ptr<WebDoor>> WebDoor::open(const std::string& listen) {
    const auto colon = listen.rfind(':');
    if (colon == std::string::npos) return no_address(listen, "it has no port");
    std::string host = listen.substr(0, colon);
    if (host.size() > 2 && host.front() == '[') host = host.substr(1, host.size() - 2);
    AddressList addresses;
    addrinfo hints{};
    hints.ai_socktype = SOCK_STREAM;
    hints.ai_flags = AI_PASSIVE | AI_NUMERICSERV;
    if (const int code = getaddrinfo(host.empty() ? nullptr : host.c_str(),
                                     listen.c_str() + colon + 1, &hints, &addresses.first))
        return no_address(listen, gai_strerror(code));
    auto parts = std::make_unique<Parts>();
    unsigned flags = MHD_USE_EPOLL_INTERNAL_THREAD | MHD_ALLOW_SUSPEND_RESUME;
    if (addresses.first->ai_family == AF_INET6) flags |= MHD_USE_IPv6;
    parts->daemon = MHD_start_daemon(
        flags, 0, nullptr, nullptr, &on_request, parts.get(), MHD_OPTION_SOCK_ADDR,
        addresses.first->ai_addr, MHD_OPTION_CONNECTION_LIMIT, readers_allowed(),
        MHD_OPTION_PER_IP_CONNECTION_LIMIT, most_from_one, MHD_OPTION_CONNECTION_TIMEOUT, patience,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, most_request, MHD_OPTION_LISTEN_BACKLOG_SIZE, 1024U,
        MHD_OPTION_END);
    if (parts->daemon == nullptr) return no_address(listen, std::strerror(errno));
    return std::unique_ptr<WebDoor>{new WebDoor{std::move(parts)}};
}

WebDoor::~WebDoor() {
    {
        const std::scoped_lock lock{parts_->guard};
        parts_->stopping = true;
        for (Reader* reader : parts_->readers) parts_->wake(*reader);
    }
    MHD_stop_daemon(parts_->daemon);
}

void WebDoor::show(const SiteMaker::Made& made) {
    const std::scoped_lock lock{parts_->guard};
    const std::uint64_t before = parts_->line.last();
    parts_->files = made.files;
    parts_->line.add(made);
    std::set<std::string_view> pages{made.remade.begin(), made.remade.end()};
    for (const PieceNews& news : made.news) pages.insert(news.pages.begin(), news.pages.end());
    for (Reader* reader : parts_->readers) {
        if (!reader->waits) continue;
        // Nothing of its page came until now, or it would not wait.
        reader->seen = before;
        if (pages.count(reader->page) != 0) parts_->wake(*reader);
    }
}

void WebDoor::beat() {
    const std::scoped_lock lock{parts_->guard};
    for (Reader* reader : parts_->readers) {
        if (!reader->waits) continue;
        reader->beat = true;
        parts_->wake(*reader);
    }
}

std::uint16_t WebDoor::port() const noexcept {
    const MHD_DaemonInfo* info = MHD_get_daemon_info(parts_->daemon, MHD_DAEMON_INFO_BIND_PORT);
    return info == nullptr ? 0 : info->port;
}

std::size_t WebDoor::readers() const {
    const std::scoped_lock lock{parts_->guard};
    return parts_->readers.size();
}

}  // namespace courthand::server::publish
