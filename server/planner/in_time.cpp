#include "server/planner/in_time.h"

#include <algorithm>

namespace courthand::server::planner {

namespace {

using Gecode::Int::IntView;
using Views = Gecode::ViewArray<IntView>;

constexpr int not_put_off = -1;

class InTime : public Gecode::Brancher {
  public:
    InTime(Gecode::Home home, Views& starts, Views& courts, const std::vector<int>& lag,
           Towards towards)
        : Gecode::Brancher{home},
          towards_{towards},
          starts_{starts},
          courts_{courts},
          lag_{static_cast<Gecode::Space&>(home).alloc<int>(starts.size())},
          put_off_{static_cast<Gecode::Space&>(home).alloc<int>(starts.size())} {
        for (int i = 0; i < starts.size(); ++i) {
            lag_[i] = lag[static_cast<std::size_t>(i)];
            put_off_[i] = not_put_off;
        }
    }
    InTime(Gecode::Space& home, InTime& other)
        : Gecode::Brancher{home, other},
          towards_{other.towards_},
          lag_{home.alloc<int>(other.starts_.size())},
          put_off_{home.alloc<int>(other.starts_.size())} {
        starts_.update(home, other.starts_);
        courts_.update(home, other.courts_);
        std::copy_n(other.lag_, starts_.size(), lag_);
        std::copy_n(other.put_off_, starts_.size(), put_off_);
    }

    bool status(const Gecode::Space&) const override {
        for (int i = 0; i < starts_.size(); ++i)
            if (!starts_[i].assigned() || !courts_[i].assigned()) return true;
        return false;
    }

    Gecode::Choice* choice(Gecode::Space&) override {
        int first = -1;
        for (int i = 0; i < starts_.size(); ++i) {
            if (starts_[i].assigned()) {
                if (!courts_[i].assigned()) return new Turn{*this, 2, i, courts_[i].min(), true};
                continue;
            }
            if (put_off_[i] == edge(i)) continue;
            if (first < 0 || turn_of(i) < turn_of(first)) first = i;
        }
        // All that is left was put off and its time did not change: this way leads nowhere.
        if (first < 0) return new Turn{*this, 1, first, 0, false};
        return new Turn{*this, 2, first, edge(first), false};
    }
    Gecode::Choice* choice(const Gecode::Space&, Gecode::Archive& archive) override {
        unsigned alternatives = 0;
        int match = 0;
        int value = 0;
        int court = 0;
        archive >> alternatives >> match >> value >> court;
        return new Turn{*this, alternatives, match, value, court != 0};
    }

    Gecode::ExecStatus commit(Gecode::Space& home, const Gecode::Choice& choice,
                              unsigned alternative) override {
        const auto& turn = static_cast<const Turn&>(choice);
        if (turn.match < 0) return Gecode::ES_FAILED;
        if (turn.court) {
            IntView& court = courts_[turn.match];
            const auto event =
                alternative == 0 ? court.eq(home, turn.value) : court.nq(home, turn.value);
            return Gecode::me_failed(event) ? Gecode::ES_FAILED : Gecode::ES_OK;
        }
        if (alternative != 0) {
            put_off_[turn.match] = turn.value;
            return Gecode::ES_OK;
        }
        const auto event = starts_[turn.match].eq(home, turn.value);
        return Gecode::me_failed(event) ? Gecode::ES_FAILED : Gecode::ES_OK;
    }

    Gecode::Actor* copy(Gecode::Space& home) override { return new (home) InTime{home, *this}; }
    std::size_t dispose(Gecode::Space& home) override {
        (void)Gecode::Brancher::dispose(home);
        return sizeof(*this);
    }

  private:
    /// A match has its time or is put off; or a court, or not that one.
    class Turn : public Gecode::Choice {
      public:
        Turn(const Gecode::Brancher& brancher, unsigned alternatives, int m, int v, bool c)
            : Gecode::Choice{brancher, alternatives}, match{m}, value{v}, court{c} {}
        void archive(Gecode::Archive& archive) const override {
            Gecode::Choice::archive(archive);
            archive << alternatives() << match << value << (court ? 1 : 0);
        }
        int match;
        int value;
        bool court;
    };

    /// The time that a match has when it is decided now.
    [[nodiscard]] int edge(int i) const {
        return towards_ == Towards::beginning ? starts_[i].min() : starts_[i].max();
    }
    [[nodiscard]] int turn_of(int i) const {
        return (towards_ == Towards::beginning ? edge(i) : -edge(i)) + lag_[i];
    }

    Towards towards_;
    Views starts_;
    Views courts_;
    int* lag_;
    int* put_off_;  ///< the time at which it was put off
};

}  // namespace

void decide_in_time(Gecode::Home home, const Gecode::IntVarArgs& starts,
                    const Gecode::IntVarArgs& courts, const std::vector<int>& lag,
                    Towards towards) {
    Views start_views{home, starts};
    Views court_views{home, courts};
    (void)new (home) InTime{home, start_views, court_views, lag, towards};
}

}  // namespace courthand::server::planner
