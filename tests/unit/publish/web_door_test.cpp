// The door that phones ask at, with real sockets.
#include "server/publish/web_door.h"

#include <gmock/gmock.h>

#include <atomic>
#include <chrono>
#include <deque>
#include <thread>

#include "hall_of.h"
#include "server/testing/or_throw.h"
#include "web_client.h"

namespace courthand::server::publish {
namespace {

using testing::answer;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;
using testing::WebClient;

class Door : public ::testing::Test {
  protected:
    Door() {
        hall.courts[1] = testing::playing(2, 12, 9);
        show();
    }
    void show() { door->show(made = maker.make(hall)); }
    [[nodiscard]] std::uint16_t port() const { return door->port(); }
    [[nodiscard]] std::string stamp(const std::string& path) const {
        return made.files->at(path)->stamp;
    }
    /// Follows a page from now on, and is waited for until it does.
    void follow(WebClient& reader, const std::string& path) {
        const std::size_t before = door->readers();
        reader.ask("/news?page=" + path + "&stamp=" + stamp(path));
        ASSERT_TRUE(testkit::eventually([&] { return door->readers() > before; }));
        EXPECT_THAT(reader.until("\r\n\r\n"), HasSubstr("text/event-stream"));
    }

    std::unique_ptr<WebDoor> door = server::value_or_throw(WebDoor::open("127.0.0.1:0"));
    SiteMaker maker;
    SiteMaker::Made made;
    HallView hall = testing::hall_of(testing::planned_cup());
};

TEST_F(Door, ServesPagesWithATagAndSavesWhoHasThem) {
    const std::string first = answer(port(), "/");
    EXPECT_THAT(first, StartsWith("HTTP/1.1 200"));
    EXPECT_THAT(first, HasSubstr("Courts now"));
    EXPECT_THAT(first, HasSubstr("default-src 'none'"));
    const std::string tag = made.files->at("index.html")->etag;
    EXPECT_THAT(first, HasSubstr("ETag: " + tag));
    const std::string again = answer(port(), "/index.html", "If-None-Match: " + tag + "\r\n");
    EXPECT_THAT(again, StartsWith("HTTP/1.1 304"));
    EXPECT_THAT(again, Not(HasSubstr("Courts now")));
    EXPECT_THAT(answer(port(), "/", "If-None-Match: \"other\"\r\n"), StartsWith("HTTP/1.1 200"));
}

TEST_F(Door, NothingBesideThePagesCanBeHad) {
    for (const char* path :
         {"/../etc/passwd", "/..%2f..%2fetc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "//etc/passwd",
          "/.index.html.new", "/assets/page.css", "/index.html/"})
        EXPECT_THAT(answer(port(), path), StartsWith("HTTP/1.1 404")) << path;
}

TEST_F(Door, NothingCanBeSaidToIt) {
    for (const char* method : {"POST", "PUT", "DELETE", "PATCH", "OPTIONS"})
        for (const char* body : {"Content-Length: 0\r\n\r\n", "Content-Length: 5\r\n\r\nhello"}) {
            WebClient client{port()};
            client.send(std::string{method} + " / HTTP/1.1\r\nHost: hall\r\nConnection: close\r\n" +
                        body);
            EXPECT_THAT(client.until_end(), StartsWith("HTTP/1.1 405")) << method << " " << body;
        }
}

TEST_F(Door, ARequestThatIsTooLargeIsRefusedAndOthersAreServed) {
    WebClient client{port()};
    client.ask("/", "X-Long: " + std::string(4 * WebDoor::most_request, 'x') + "\r\n");
    EXPECT_THAT(client.until_end(), Not(StartsWith("HTTP/1.1 200")));
    EXPECT_THAT(answer(port(), "/"), StartsWith("HTTP/1.1 200"));
}

TEST_F(Door, ARallyReachesWhoReadsItsPageAndNobodyElse) {
    WebClient courts{port()};
    WebClient pools{port()};
    follow(courts, "index.html");
    follow(pools, "pools.html");
    hall.courts[1].score = {13, 9};
    show();
    EXPECT_THAT(courts.until("<td>13</td>"), HasSubstr("event: piece"));
    hall = testing::hall_of(testing::planned_cup() + "result A2 paper 25-3 25-4\n", 2);
    show();
    const std::string of_pools = pools.until("25-3");
    EXPECT_THAT(of_pools, HasSubstr("event: piece"));
    EXPECT_THAT(of_pools, Not(HasSubstr("court-2\\\"")));
}

TEST_F(Door, WhatChangedWhileThePageWasOnItsWayIsToldAtOnce) {
    const std::string old = stamp("index.html");
    hall.courts[1].score = {13, 9};
    show();
    WebClient reader{port()};
    reader.ask("/news?page=index.html&stamp=" + old);
    EXPECT_THAT(reader.until("event: anew"), HasSubstr("event: anew"));
}

TEST_F(Door, WhoComesBackGetsWhatHeMissed) {
    hall.courts[1].score = {13, 9};
    show();
    std::string id;
    {
        WebClient reader{port()};
        follow(reader, "index.html");
        hall.courts[1].score = {14, 9};
        show();
        const std::string text = reader.until("<td>14</td>");
        const std::size_t at = text.find("id: ") + 4;
        id = text.substr(at, text.find('\n', at) - at);
    }
    hall.courts[1].score = {14, 10};
    show();
    WebClient again{port()};
    again.ask("/news?page=index.html", "Last-Event-ID: " + id + "\r\n");
    const std::string text = again.until("<td>10</td>");
    EXPECT_THAT(text, HasSubstr("<td>10</td>"));
    EXPECT_THAT(text, Not(HasSubstr("event: anew")));
}

TEST_F(Door, AReaderThatNeverReadsHoldsNobodyUp) {
    WebClient deaf{port()};
    follow(deaf, "index.html");
    WebClient reader{port()};
    follow(reader, "index.html");
    // Far more than the buffers of a socket and the news line hold.
    SiteMaker::Made rally;
    rally.files = made.files;
    rally.news = {{{"court-2", std::string(4000, 'x')}, {"index.html"}}};
    for (std::size_t i = 0; i < 3 * NewsLine::most_items; ++i) door->show(rally);
    hall.courts[1].score = {77, 0};
    show();
    EXPECT_THAT(answer(port(), "/"), HasSubstr("<td>77</td>"));
    // Who reads late learns that he missed something.
    EXPECT_THAT(deaf.until("event: anew"), HasSubstr("event: anew"));
}

TEST_F(Door, ABeatTellsThoseWhoWaitThatTheLineLives) {
    WebClient reader{port()};
    follow(reader, "teams.html");
    std::atomic<bool> heard = false;
    // It is told once it waits, which is a moment after it has come.
    std::thread beats{[&] {
        for (int i = 0; i < 200 && !heard; ++i) {
            door->beat();
            std::this_thread::sleep_for(std::chrono::milliseconds{10});
        }
    }};
    const std::string text = reader.until(":\n\n");
    heard = true;
    beats.join();
    EXPECT_THAT(text, HasSubstr(":\n\n"));
}

TEST_F(Door, GoesDownWithReadersAtIt) {
    std::deque<WebClient> readers;
    for (int i = 0; i < 20; ++i) follow(readers.emplace_back(port()), "index.html");
    door.reset();
    EXPECT_THAT(readers.front().until_end(), Not(HasSubstr("event: anew")));
}

TEST(OpeningTheDoor, BeforeThereIsAPageAReaderIsToldToComeBack) {
    const auto door = server::value_or_throw(WebDoor::open("127.0.0.1:0"));
    EXPECT_THAT(answer(door->port(), "/"), StartsWith("HTTP/1.1 503"));
    EXPECT_THAT(answer(door->port(), "/news?page=index.html"), StartsWith("HTTP/1.1 503"));
}

TEST(OpeningTheDoor, AnAddressThatCannotBeIsToldWithTheCure) {
    for (const char* listen :
         {"8080", "127.0.0.1:port", "198.51.100.7:80", "no-such-host.invalid:80"}) {
        const auto door = WebDoor::open(listen);
        ASSERT_FALSE(door.ok()) << listen;
        EXPECT_THAT(door.status().text(), HasSubstr(listen));
        EXPECT_THAT(door.status().text(), HasSubstr("--publish"));
    }
}

}  // namespace
}  // namespace courthand::server::publish
