// What Qt and QML complain of while this lives.
#pragma once

#include <QStringList>
#include <QtGlobal>

namespace courthand::tests {

/// One at a time, on one thread, as a test is.
class HeardWarnings {
  public:
    HeardWarnings() {
        words().clear();
        before_ = qInstallMessageHandler(&HeardWarnings::hear);
    }
    ~HeardWarnings() { qInstallMessageHandler(before_); }
    HeardWarnings(const HeardWarnings&) = delete;
    HeardWarnings& operator=(const HeardWarnings&) = delete;

    [[nodiscard]] QStringList all() const { return words(); }

  private:
    static QStringList& words() {
        static QStringList all;
        return all;
    }
    static void hear(QtMsgType type, const QMessageLogContext& /*where*/, const QString& said) {
        if (type != QtDebugMsg && type != QtInfoMsg) words() << said;
    }

    QtMessageHandler before_ = nullptr;
};

}  // namespace courthand::tests
