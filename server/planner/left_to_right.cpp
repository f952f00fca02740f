#include "server/planner/left_to_right.h"

#include <algorithm>

namespace courthand::server::planner {

namespace {

using Gecode::Int::IntView;
using Views = Gecode::ViewArray<IntView>;

constexpr int not_put_off = -1;

class LeftToRight : public Gecode::Brancher {
  public:
    LeftToRight(Gecode::Home home, Views& starts, Views& courts, const std::vector<int>& lag)
        : Gecode::Brancher{home},
          starts_{starts},
          courts_{courts},
          lag_{static_cast<Gecode::Space&>(home).alloc<int>(starts.size())},
          put_off_{static_cast<Gecode::Space&>(home).alloc<int>(starts.size())} {
        for (int i = 0; i < starts.size(); ++i) {
            lag_[i] = lag[static_cast<std::size_t>(i)];
            put_off_[i] = not_put_off;
        }
    }
    LeftToRight(Gecode::Space& home, LeftToRight& other)
        : Gecode::Brancher{home, other},
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
            if (put_off_[i] == starts_[i].min()) continue;
            if (first < 0 || starts_[i].min() + lag_[i] < starts_[first].min() + lag_[first])
                first = i;
        }
        // All that is left was put off and nothing made it later: this way leads nowhere.
        if (first < 0) return new Turn{*this, 1, first, 0, false};
        return new Turn{*this, 2, first, starts_[first].min(), false};
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

    Gecode::Actor* copy(Gecode::Space& home) override {
        return new (home) LeftToRight{home, *this};
    }
    std::size_t dispose(Gecode::Space& home) override {
        (void)Gecode::Brancher::dispose(home);
        return sizeof(*this);
    }

  private:
    /// A match has its earliest time or is put off; or a court, or not that one.
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

    Views starts_;
    Views courts_;
    int* lag_;
    int* put_off_;  ///< the time at which it was put off
};

}  // namespace

void decide_left_to_right(Gecode::Home home, const Gecode::IntVarArgs& starts,
                          const Gecode::IntVarArgs& courts, const std::vector<int>& lag) {
    Views start_views{home, starts};
    Views court_views{home, courts};
    (void)new (home) LeftToRight{home, start_views, court_views, lag};
}

}  // namespace courthand::server::planner
