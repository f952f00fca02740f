// Calls from other threads to something on the screen, as long as it is there.
#pragma once

#include <QMetaObject>
#include <QObject>
#include <memory>
#include <mutex>
#include <utility>

namespace courthand::seats {

/// A member of what is called. Whoever holds a `To` may call on any thread at any time: once the
/// post has gone, nothing happens.
class ScreenPost {
  public:
    class To {
      public:
        /// `what` runs later, on the thread of the screen.
        template <class What>
        void call(What what) const {
            const std::scoped_lock lock{box_->mutex};
            if (box_->whom != nullptr)
                QMetaObject::invokeMethod(box_->whom, std::move(what), Qt::QueuedConnection);
        }

      private:
        friend class ScreenPost;
        struct Box {
            std::mutex mutex;
            QObject* whom = nullptr;  ///< guarded by mutex
        };
        std::shared_ptr<Box> box_ = std::make_shared<Box>();
    };

    explicit ScreenPost(QObject& whom) { to_.box_->whom = &whom; }
    ~ScreenPost() {
        const std::scoped_lock lock{to_.box_->mutex};
        to_.box_->whom = nullptr;
    }
    ScreenPost(const ScreenPost&) = delete;
    ScreenPost& operator=(const ScreenPost&) = delete;

    [[nodiscard]] const To& to() const { return to_; }

  private:
    To to_;
};

}  // namespace courthand::seats
