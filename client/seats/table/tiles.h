// What one tile, row or slip on the screen shows: plain values, read by QML by the names of their
// fields.
#pragma once

#include <QObject>
#include <QString>
#include <QVariantList>
#include <vector>

namespace courthand::client {

/// A number in a list: a player, or a number that is not anybody's yet.
struct PlayerTile {
    Q_GADGET
    Q_PROPERTY(int number MEMBER number)
    Q_PROPERTY(QString name MEMBER name)
    Q_PROPERTY(QString numeral MEMBER numeral)
    Q_PROPERTY(QString whyNot MEMBER why_not)
    Q_PROPERTY(bool captain MEMBER captain)
    Q_PROPERTY(bool libero MEMBER libero)
    Q_PROPERTY(bool onCourt MEMBER on_court)
    Q_PROPERTY(bool chosen MEMBER chosen)
    Q_PROPERTY(bool used MEMBER used)
    Q_PROPERTY(bool unable MEMBER unable)
    Q_PROPERTY(bool legal MEMBER legal)

  public:
    int number = -1;  ///< -1: an empty place
    QString name;
    QString numeral;  ///< the position on court
    QString why_not;  ///< why it is not legal for what is chosen; short
    bool captain = false;
    bool libero = false;
    bool on_court = false;
    bool chosen = false;
    bool used = false;    ///< is part of what is being written already
    bool unable = false;  ///< a libero who cannot go on
    bool legal = false;   ///< for what is chosen
};

/// A place on the floor or a libero box beside it.
struct FloorTile {
    Q_GADGET
    Q_PROPERTY(QString number MEMBER number)
    Q_PROPERTY(QString numeral MEMBER numeral)
    Q_PROPERTY(QString footnote MEMBER footnote)
    Q_PROPERTY(QString whyNot MEMBER why_not)
    Q_PROPERTY(QString spoken MEMBER spoken)
    Q_PROPERTY(bool captain MEMBER captain)
    Q_PROPERTY(bool libero MEMBER libero)
    Q_PROPERTY(bool serving MEMBER serving)
    Q_PROPERTY(bool triangle MEMBER triangle)
    Q_PROPERTY(bool away MEMBER away)
    Q_PROPERTY(int offer MEMBER offer)

  public:
    QString number;  ///< empty: there is nobody, or no such box
    QString numeral;
    QString footnote;
    QString why_not;
    QString spoken;
    bool captain = false;
    bool libero = false;
    bool serving = false;
    bool triangle = false;  ///< a libero may serve here
    bool away = false;      ///< whom the libero replaces, beside the court
    int offer = 0;          ///< `Offer`, in the order of CourtTile.Offer
};

/// One place of a line-up sheet.
struct SheetCell {
    Q_GADGET
    Q_PROPERTY(QString label MEMBER label)
    Q_PROPERTY(QString number MEMBER number)
    Q_PROPERTY(bool none MEMBER none)
    Q_PROPERTY(bool current MEMBER current)
    Q_PROPERTY(bool captain MEMBER captain)

  public:
    QString label;
    QString number;
    bool none = false;     ///< a libero box that somebody was asked about and stays empty
    bool current = false;  ///< takes the next number
    bool captain = false;
};

/// One word to choose.
struct ChoiceWord {
    Q_GADGET
    Q_PROPERTY(QString word MEMBER word)
    Q_PROPERTY(bool chosen MEMBER chosen)

  public:
    QString word;
    bool chosen = false;
};

/// A verdict that stands.
struct Notice {
    Q_GADGET
    Q_PROPERTY(bool open MEMBER open)
    Q_PROPERTY(bool behind MEMBER behind)
    Q_PROPERTY(QString phase MEMBER phase)
    Q_PROPERTY(QString text MEMBER text)
    Q_PROPERTY(QString rule MEMBER rule)
    Q_PROPERTY(QString remedy MEMBER remedy)
    Q_PROPERTY(QString before MEMBER before)
    Q_PROPERTY(QString after MEMBER after)
    Q_PROPERTY(int rally MEMBER rally)
    Q_PROPERTY(int entry MEMBER entry)
    Q_PROPERTY(int reason MEMBER reason)
    Q_PROPERTY(int team MEMBER team)

  public:
    bool open = false;
    bool behind = false;  ///< an older fault of the same kind is ruled first
    QString phase;
    QString text;
    QString rule;
    QString remedy;
    QString before;  ///< the six before and after the entry that raised it
    QString after;
    int rally = 0;
    int entry = 0;  ///< with reason and team: which verdict it is, whatever its place in a list
    int reason = 0;
    int team = 0;
};

/// One who signs.
struct SignLine {
    Q_GADGET
    Q_PROPERTY(QString by MEMBER by)
    Q_PROPERTY(QString words MEMBER words)
    Q_PROPERTY(bool given MEMBER given)
    Q_PROPERTY(bool missing MEMBER missing)

  public:
    QString by;     ///< the word of the signer in a script
    QString words;  ///< "captain of Mill Lane"
    bool given = false;
    bool missing = false;  ///< without this one it is not closed
};

/// A libero box that nobody has settled.
struct OpenBox {
    Q_GADGET
    Q_PROPERTY(bool onLeft MEMBER on_left)
    Q_PROPERTY(int box MEMBER box)
    Q_PROPERTY(QString team MEMBER team)

  public:
    bool on_left = true;
    int box = 0;
    QString team;
};

/// A key and what it does.
struct KeyRow {
    Q_GADGET
    Q_PROPERTY(int act MEMBER act)
    Q_PROPERTY(QString words MEMBER words)
    Q_PROPERTY(QString keys MEMBER keys)
    Q_PROPERTY(bool on MEMBER on)

  public:
    int act = 0;
    QString words;
    QString keys;
    bool on = true;
};

/// A list of tiles as QML takes it.
template <class Tile>
[[nodiscard]] QVariantList as_list(const std::vector<Tile>& tiles) {
    QVariantList list;
    list.reserve(static_cast<qsizetype>(tiles.size()));
    for (const Tile& tile : tiles) list << QVariant::fromValue(tile);
    return list;
}

}  // namespace courthand::client
