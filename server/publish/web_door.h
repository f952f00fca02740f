// Where phones ask: the files of the site by GET, and the news of a page as server-sent events.
// Reads nothing but what it was given last; it cannot reach the database, nor any file of this
// machine.
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "server/publish/news_line.h"
#include "server/publish/site.h"
#include "server/store/status.h"

namespace courthand::server::publish {

class WebDoor {
  public:
    /// Connections at a time; those beyond wait to be taken.
    static constexpr unsigned most_connections = 6000;
    /// From one address. A hall behind one address has its phones.
    static constexpr unsigned most_from_one = 2000;
    /// Seconds in which a connection must take or ask something; who waits for news may wait
    /// longer.
    static constexpr unsigned patience = 60;
    /// Bytes that a request, with its head, may take.
    static constexpr std::size_t most_request = 8 * 1024;
    /// A line without meaning for those who wait, so often, so that a dead one is noticed.
    static constexpr unsigned beat_seconds = 15;

    /// Opens at "HOST:PORT"; port 0 is any. Fails with a cure when it cannot.
    [[nodiscard]] static Result<std::unique_ptr<WebDoor>> open(const std::string& listen);
    ~WebDoor();
    WebDoor(const WebDoor&) = delete;
    WebDoor& operator=(const WebDoor&) = delete;

    /// What is published from now on, and what of it is news. From one thread.
    void show(const SiteMaker::Made& made);
    /// Tells those who wait that the line is alive; the publisher calls it every `beat_seconds`.
    void beat();

    [[nodiscard]] std::uint16_t port() const noexcept;
    /// Readers that hold a line for news.
    [[nodiscard]] std::size_t readers() const;

    struct Parts;  ///< what the callbacks of the library work on

  private:
    explicit WebDoor(std::unique_ptr<Parts> parts);
    std::unique_ptr<Parts> parts_;
};

}  // namespace courthand::server::publish
