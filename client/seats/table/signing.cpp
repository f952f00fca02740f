#include "signing.h"

#include <QStringList>
#include <algorithm>

#include "tiles.h"

namespace courthand::client {

bool Signing::ofResult() const {
    return look_.state().set.stage == Stage::match_over;
}

bool Signing::offered() const {
    const MatchState& state = look_.state();
    const bool lists = state.team.a.count > 0 && state.team.b.count > 0;
    return ofResult() || (lists && state.set.number == 0);
}

Signing::Sheet Signing::sheet() const {
    Sheet sheet;
    if (!offered()) return sheet;
    const Signatures signatures{look_.session.written()};
    if (ofResult()) {
        sheet.signers = {record_signers.begin(), record_signers.end()};
        sheet.given = signatures.under_record();
        sheet.missing = missing_to_close(sheet.given);
        return sheet;
    }
    sheet.signers = {list_signers.begin(), list_signers.end()};
    sheet.given = signatures.under_lists();
    std::copy_if(sheet.signers.begin(), sheet.signers.end(), std::back_inserter(sheet.missing),
                 [&](Signer signer) { return !sheet.given.has(signer); });
    return sheet;
}

QVariantList Signing::lines() const {
    const Sheet now = sheet();
    std::vector<SignLine> lines;
    for (const Signer signer : now.signers) {
        SignLine line;
        const std::string_view word = choice_word(signer);
        line.by = QString::fromUtf8(word.data(), static_cast<qsizetype>(word.size()));
        line.words = look_.wording.signer(signer);
        line.given = now.given.has(signer);
        line.missing =
            std::find(now.missing.begin(), now.missing.end(), signer) != now.missing.end();
        lines.push_back(line);
    }
    return as_list(lines);
}

bool Signing::closed() const {
    return offered() && sheet().missing.empty();
}

QString Signing::words() const {
    if (!offered()) return {};
    QStringList missing;
    for (const Signer signer : sheet().missing) missing << look_.wording.signer(signer);
    if (!missing.isEmpty()) return tr("Not signed: %1").arg(missing.join(tr(", ")));
    return ofResult() ? tr("The match is closed") : tr("Both team lists are signed");
}

void Signing::sign(const QString& by) {
    const Sheet now = sheet();
    for (const Signer signer : now.signers)
        if (choice_word(signer) == by.toStdString() && !now.given.has(signer))
            table_.perform({Signature{signer}});
}

}  // namespace courthand::client
