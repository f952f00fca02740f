// A desk that watches the tournament's record over TLS with a real server, and acts in it.
#pragma once

#include <gtest/gtest.h>

#include <condition_variable>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "client/sync/channel.h"
#include "server/testing/enrolled_device.h"
#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "tests/testkit/eventually.h"
#include "venue/event_act.h"
#include "venue/event_client.h"

namespace courthand::venue::testing {

using server::testing::EnrolledDevice;
using server::testing::ServerOptions;
using server::testing::ServerProcess;
using server::testing::TestDatabase;

[[nodiscard]] inline std::shared_ptr<grpc::Channel> channel_of(const EnrolledDevice& device,
                                                               const std::string& address) {
    return client::make_channel(address,
                                {device.key_pem, device.certificate_pem, device.authority_pem});
}

/// One seat with its newest book.
class EventSeat {
  public:
    EventSeat(std::shared_ptr<grpc::Channel> channel, std::string author)
        : client_{std::move(channel), std::move(author), quick()} {
        client_.start({[this](const EventBook& book) {
                           const std::scoped_lock lock{mutex_};
                           book_ = book;
                           news_.notify_all();
                       },
                       [this](const Link& link) {
                           const std::scoped_lock lock{mutex_};
                           link_ = link;
                           news_.notify_all();
                       }});
    }
    ~EventSeat() { client_.stop(); }

    [[nodiscard]] EventBook book() {
        const std::scoped_lock lock{mutex_};
        return book_;
    }
    [[nodiscard]] Link link() {
        const std::scoped_lock lock{mutex_};
        return link_;
    }
    /// Waits for a whole book for which the condition holds.
    template <class Condition>
    [[nodiscard]] bool sees(Condition condition) {
        return wait([&] { return book_.whole && condition(book_); });
    }
    [[nodiscard]] bool comes_to(event::FactNumber last) {
        return sees([&](const EventBook& book) { return book.state->last() == last; });
    }
    [[nodiscard]] bool link_is(LinkState state) {
        return wait([&] { return link_.state == state; });
    }

    /// Begins an act; `answered` waits for what became of it.
    void begin(const EventAct& act) {
        {
            const std::scoped_lock lock{mutex_};
            outcome_.reset();
        }
        client_.act(act, [this](const ActOutcome& outcome) {
            const std::scoped_lock lock{mutex_};
            outcome_ = outcome;
            news_.notify_all();
        });
    }
    [[nodiscard]] ActOutcome answered() {
        if (!wait([&] { return outcome_.has_value(); })) return {};
        const std::scoped_lock lock{mutex_};
        return *outcome_;
    }
    [[nodiscard]] ActOutcome act(const EventAct& act) {
        begin(act);
        return answered();
    }
    EventClient& client() { return client_; }

  private:
    static EventClient::Options quick() {
        EventClient::Options options;
        options.back_off = {std::chrono::milliseconds{50}, std::chrono::milliseconds{200}};
        return options;
    }
    template <class Holds>
    [[nodiscard]] bool wait(Holds holds) {
        std::unique_lock lock{mutex_};
        return news_.wait_for(lock, testkit::patience_with_programs, holds);
    }

    std::mutex mutex_;
    std::condition_variable news_;
    EventBook book_;
    Link link_;
    std::optional<ActOutcome> outcome_;
    EventClient client_;
};

[[nodiscard]] inline event::Said court(std::uint16_t number, std::string name = {}) {
    event::CourtOpened court;
    court.court = number;
    court.name = std::move(name);
    return {court, ""};
}

}  // namespace courthand::venue::testing
