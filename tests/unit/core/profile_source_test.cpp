// FIVB, NCAA, NFHS and US national federation texts as named in each row: what was settled against
// print, value by value. A row says what the profile file must say, so that no slip of the hand
// moves a value or loses its source.
#include <gtest/gtest.h>

#include "courthand/rules/parameter.h"

namespace courthand {
namespace {

struct Settled {
    const char* profile;
    const char* key;
    const char* value;
    const char* source;
};

// clang-format off
const Settled settled[] = {
    {"international-2013", "match.switch-at", "8",
     "FIVB Official Volleyball Rules 2013-2016, reprint of July 2016, rule 18.2.2"},
    {"international-2013", "roster.most-by-choice-of-event", "14",
     "FIVB Official Volleyball Rules 2009, rule 4.1.1"},
    {"international-2013", "team.six-must-start", "true",
     "memory"},
    {"international-2013", "substitution.illegal-request-is-delay", "true",
     "FIVB Official Volleyball Rules 2013-2016, rule 16.1.3"},
    {"international-2013", "substitution.second-request-after-time-out", "false",
     "FIVB Official Volleyball Rules 2013-2016, rule 15.2.3"},
    {"international-2013", "interval.seconds", "180",
     "FIVB Official Volleyball Rules 2013-2016, reprint of July 2016, rule 18.1"},
    {"international-2013", "interval.longest-seconds", "600",
     "FIVB Official Volleyball Rules 2013-2016, reprint of July 2016, rule 18.1"},
    {"international-2013", "recovery.seconds", "180",
     "FIVB Official Volleyball Rules 2013-2016, reprint of July 2016, rule 17.1.2"},
    {"international-2013", "libero.per-set", "2",
     "German federation summary of the rule changes of 2013/14, rule 19"},
    {"international-2013", "libero.replacement-during-replay", "true",
     "open: rule 19.3.2 as seen does not forbid it; Austrian referee material of about 2019-20 allows it for injury and illness only"},
    {"international-2013", "libero.starting-libero", "false",
     "German federation summary of the rule changes of 2013/14, rule 19"},
    {"international-2013", "libero.illegal-replacement-opens", "service-contact",
     "German federation summary of the rule changes of 2013/14, rule 19.3.2.9"},
    {"international-2013", "redesignation.beside-active-libero", "false",
     "German federation summary of the rule changes of 2013/14, rule 19.4"},
    {"international-2013", "redesignation.of-disqualified", "yes",
     "German federation summary of the rule changes of 2013/14, rule 19.5"},
    {"international-2013", "redesignation.declaration-is-enough", "true",
     "German federation summary of the rule changes of 2013/14, rule 19.4"},
    {"international-2013", "redesignation.declared-on-court", "at-once",
     "open: the text of this edition was not seen"},
    {"international-2013", "redesignation.replaced-libero-out", "match",
     "German federation summary of the rule changes of 2013/14, rule 19.4"},
    {"international-2013", "redesignation.captain", "false",
     "German federation summary of the rule changes of 2013/14, rule 19.4"},
    {"international-2013", "delay.scope", "match",
     "FIVB Official Volleyball Rules 2013-2016, reprint of July 2016, rule 16.2.1.1"},
    {"international-2013", "delay.point-from", "2",
     "FIVB Official Volleyball Rules 2013-2016, reprint of July 2016, rule 16.2.1.3"},
    {"international-2013", "misconduct.disqualification-brings-point", "false",
     "FIVB Official Volleyball Rules 2013-2016, French print, diagram 9"},
    {"international-2013", "fault.unregistered-finished-set", "keeps-earlier-points",
     "German federation notice of 2013 on rule 7.3.5.4"},
    {"international-2015", "match.switch-at", "8",
     "FIVB Official Volleyball Rules 2015-2016, rule 18.2.2"},
    {"international-2015", "roster.most-by-choice-of-event", "14",
     "FIVB Official Volleyball Rules 2009, rule 4.1.1"},
    {"international-2015", "roster.two-liberos-above", "12",
     "open: FIVB key rule changes 2015 speaks of it; the wording was not seen in full"},
    {"international-2015", "team.six-must-start", "true",
     "memory"},
    {"international-2015", "substitution.illegal-request-is-delay", "true",
     "FIVB Official Volleyball Rules 2013-2016, rule 16.1.3"},
    {"international-2015", "substitution.second-request-after-time-out", "false",
     "FIVB Official Volleyball Rules 2013-2016, rule 15.2.3"},
    {"international-2015", "interval.seconds", "180",
     "FIVB Official Volleyball Rules 2015-2016, rule 18.1"},
    {"international-2015", "interval.longest-seconds", "600",
     "FIVB Official Volleyball Rules 2015-2016, rule 18.1"},
    {"international-2015", "recovery.seconds", "180",
     "FIVB Official Volleyball Rules 2015-2016, rule 17.1.2"},
    {"international-2015", "libero.per-set", "2",
     "German federation summary of the rule changes of 2013/14, rule 19"},
    {"international-2015", "libero.replay-completes-rally", "false",
     "FIVB key rule changes 2015, completed rally"},
    {"international-2015", "libero.replacement-during-replay", "true",
     "open: rule 19.3.2 as seen does not forbid it; Austrian referee material of about 2019-20 allows it for injury and illness only"},
    {"international-2015", "libero.starting-libero", "false",
     "German federation summary of the rule changes of 2013/14, rule 19"},
    {"international-2015", "libero.illegal-replacement-opens", "service-contact",
     "German federation summary of the rule changes of 2013/14, rule 19.3.2.9"},
    {"international-2015", "redesignation.beside-active-libero", "false",
     "German federation summary of the rule changes of 2013/14, rule 19.4"},
    {"international-2015", "redesignation.of-disqualified", "yes",
     "German federation summary of the rule changes of 2013/14, rule 19.5"},
    {"international-2015", "redesignation.declaration-is-enough", "true",
     "German federation summary of the rule changes of 2013/14, rule 19.4"},
    {"international-2015", "redesignation.declared-on-court", "at-once",
     "open: the text of this edition was not seen"},
    {"international-2015", "redesignation.replaced-libero-out", "match",
     "German federation summary of the rule changes of 2013/14, rule 19.4"},
    {"international-2015", "redesignation.captain", "false",
     "German federation summary of the rule changes of 2013/14, rule 19.4"},
    {"international-2015", "delay.scope", "match",
     "FIVB Official Volleyball Rules 2015-2016, rule 16.2.1.1"},
    {"international-2015", "delay.point-from", "2",
     "FIVB Official Volleyball Rules 2015-2016, rule 16.2.1.3"},
    {"international-2015", "misconduct.disqualification-brings-point", "false",
     "FIVB Official Volleyball Rules 2013-2016, French print, diagram 9"},
    {"international-2015", "fault.unregistered-finished-set", "keeps-earlier-points",
     "German federation notice of 2013 on rule 7.3.5.4"},
    {"international-2017", "match.sets", "5",
     "FIVB Official Volleyball Rules 2017-2020, rule 6.3.1"},
    {"international-2017", "match.points", "25",
     "FIVB Official Volleyball Rules 2017-2020, rule 6.2"},
    {"international-2017", "match.deciding-points", "15",
     "FIVB Official Volleyball Rules 2017-2020, rule 6.3.2"},
    {"international-2017", "match.lead", "2",
     "FIVB Official Volleyball Rules 2017-2020, rule 6.2"},
    {"international-2017", "match.cap", "0",
     "FIVB Official Volleyball Rules 2017-2020, rule 6.2"},
    {"international-2017", "match.switch-at", "8",
     "FIVB Official Volleyball Rules 2017-2020, rule 18.2.2"},
    {"international-2017", "roster.most-by-choice-of-event", "14",
     "FIVB Official Volleyball Rules 2017-2020, rule 19.1.1"},
    {"international-2017", "roster.two-liberos-above", "12",
     "FIVB Official Volleyball Rules 2017-2020, rule 19.1.1"},
    {"international-2017", "team.six-must-play", "true",
     "FIVB Official Volleyball Rules 2017-2020, rule 7.3.1"},
    {"international-2017", "team.six-must-start", "true",
     "FIVB Official Volleyball Rules 2017-2020, rule 7.3.1"},
    {"international-2017", "substitution.rejection-bars-requests", "false",
     "FIVB Official Volleyball Rules 2017-2020, rule 15.2, which ends at 15.2.3"},
    {"international-2017", "substitution.before-first-serve", "true",
     "FIVB Official Volleyball Rules 2017-2020, rule 7.3.4"},
    {"international-2017", "substitution.after-replay", "false",
     "FIVB Official Volleyball Rules 2017-2020, rule 15.2.3"},
    {"international-2017", "substitution.second-request-after-time-out", "false",
     "FIVB Official Volleyball Rules 2017-2020, rule 15.2.3"},
    {"international-2017", "interval.seconds", "180",
     "FIVB Official Volleyball Rules 2017-2020, rule 18.1"},
    {"international-2017", "interval.longest-seconds", "600",
     "FIVB Official Volleyball Rules 2017-2020, rule 18.1"},
    {"international-2017", "libero.per-set", "2",
     "FIVB Official Volleyball Rules 2017-2020, rule 19.1.1"},
    {"international-2017", "libero.designation", "match",
     "FIVB Official Volleyball Rules 2017-2020, rule 19.1.2"},
    {"international-2017", "libero.team-captain", "false",
     "FIVB Official Volleyball Rules 2017-2020, rule 5"},
    {"international-2017", "libero.game-captain", "false",
     "FIVB Official Volleyball Rules 2017-2020, rule 5"},
    {"international-2017", "libero.replay-completes-rally", "false",
     "FIVB Official Volleyball Rules 2017-2020, rule 6.1.3"},
    {"international-2017", "libero.replacement-during-replay", "true",
     "open: rule 19.3.2 as seen does not forbid it; Austrian referee material of about 2019-20 allows it for injury and illness only"},
    {"international-2017", "libero.starting-libero", "false",
     "FIVB Official Volleyball Rules 2017-2020, rule 19.1.3"},
    {"international-2017", "redesignation.of-disqualified", "yes",
     "memory"},
    {"international-2017", "redesignation.declared-on-court", "at-once",
     "open: FIVB Official Volleyball Rules 2017-2020, rule 19.4.2.2, lets the new libero enter at once; Austrian referee material of about 2019-20 asks for the regular player and a completed rally first"},
    {"international-2017", "misconduct.scope", "match",
     "FIVB Official Volleyball Rules 2017-2020, rule 21.3.1"},
    {"international-2017", "fault.unregistered-finished-set", "keeps-earlier-points",
     "German federation notice of 2013 on rule 7.3.5.4"},
    {"international-2021", "roster.most-listed", "12",
     "FIVB Official Volleyball Rules 2021-2024, rule 4.1.1"},
    {"international-2021", "roster.most-by-choice-of-event", "14",
     "FIVB Official Volleyball Rules 2021-2024, rule 4.1.1"},
    {"international-2021", "team.six-must-start", "true",
     "FIVB Official Volleyball Rules 2021-2024, rule 7.3.1"},
    {"international-2021", "substitution.second-request-after-time-out", "false",
     "FIVB Official Volleyball Rules 2021-2024, rule 15.2.3"},
    {"international-2021", "interval.longest-seconds", "600",
     "open: a national rendering of the 2021-2024 text does not say it; FIVB Official Volleyball Rules 2017-2020 and 2025-2028, rule 18.1, do"},
    {"international-2021", "libero.replacement-during-replay", "true",
     "open: FIVB Official Volleyball Rules 2021-2024, rule 19.3.2.4 does not forbid it; Austrian referee material of about 2019-20 allows it for injury and illness only"},
    {"international-2021", "redesignation.of-disqualified", "yes",
     "FIVB Official Volleyball Rules 2021-2024, rule 19.5"},
    {"international-2021", "redesignation.declared-on-court", "at-once",
     "open: FIVB Official Volleyball Rules 2021-2024, rule 19.4.2.2, lets the new libero enter at once; Austrian referee material of about 2019-20 asks for the regular player and a completed rally first"},
    {"international-2021", "fault.unregistered-finished-set", "keeps-earlier-points",
     "German federation notice of 2013 on rule 7.3.5.4"},
    {"international-2025", "roster.most-listed", "12",
     "FIVB Official Volleyball Rules 2025-2028, rule 4.1.1"},
    {"international-2025", "roster.most-by-choice-of-event", "14",
     "FIVB Official Volleyball Rules 2025-2028, rule 4.1.1"},
    {"international-2025", "team.six-must-start", "true",
     "FIVB Official Volleyball Rules 2025-2028, rule 7.3.1"},
    {"international-2025", "substitution.second-request-after-time-out", "false",
     "FIVB Official Volleyball Rules 2025-2028, rule 15.2.3"},
    {"international-2025", "libero.replacement-during-replay", "true",
     "open: FIVB Official Volleyball Rules 2025-2028, rule 19.3.2.4 does not forbid it; Austrian referee material of about 2019-20 allows it for injury and illness only"},
    {"international-2025", "redesignation.of-disqualified", "yes",
     "FIVB Official Volleyball Rules 2025-2028, rule 19.5"},
    {"international-2025", "redesignation.declared-on-court", "at-once",
     "FIVB Official Volleyball Rules 2025-2028, rule 19.4.2.2"},
    {"international-2025", "fault.unregistered-finished-set", "keeps-earlier-points",
     "German federation notice of 2013 on rule 7.3.5.4"},
    {"us-college-women-2023", "match.switch-at-long", "13",
     "memory; a third-party copy of college material says so too"},
    {"us-college-women-2023", "roster.most-by-choice-of-event", "24",
     "memory"},
    {"us-college-women-2023", "team.six-must-start", "true",
     "memory"},
    {"us-college-women-2023", "substitution.second-request-after-time-out", "true",
     "NCAA Women's Volleyball Rules, rule 11.3.3.2.6"},
    {"us-college-women-2023", "interval.longest-seconds", "300",
     "NCAA rules survey, November 2021"},
    {"us-college-women-2023", "redesignation.of-disqualified", "no",
     "memory"},
    {"us-college-women-2023", "redesignation.declared-on-court", "at-once",
     "memory"},
    {"us-college-women-2023", "fault.unregistered-finished-set", "keeps-earlier-points",
     "memory"},
    {"us-college-women-2024", "match.switch-at-long", "13",
     "memory; a third-party copy of college material says so too"},
    {"us-college-women-2024", "roster.most-by-choice-of-event", "24",
     "memory"},
    {"us-college-women-2024", "team.six-must-start", "true",
     "memory"},
    {"us-college-women-2024", "substitution.second-request-after-time-out", "true",
     "NCAA Women's Volleyball Rules, rule 11.3.3.2.6"},
    {"us-college-women-2024", "interval.longest-seconds", "300",
     "NCAA rules survey, November 2021"},
    {"us-college-women-2024", "libero.per-set", "2",
     "NCAA panel report 2024, rule 12.1.1"},
    {"us-college-women-2024", "libero.serving-positions", "1",
     "NCAA panel report 2024"},
    {"us-college-women-2024", "redesignation.of-disqualified", "no",
     "memory"},
    {"us-college-women-2024", "redesignation.declared-on-court", "at-once",
     "memory"},
    {"us-college-women-2024", "fault.unregistered-finished-set", "keeps-earlier-points",
     "memory"},
    {"us-domestic-2012", "match.switch-at-long", "13",
     "US national federation domestic rules, 2001-02, commentary on rule 7.1.1"},
    {"us-domestic-2012", "roster.most-by-choice-of-event", "15",
     "memory"},
    {"us-domestic-2012", "team.six-must-start", "true",
     "memory"},
    {"us-domestic-2012", "substitution.exceptional-after-sanction", "false",
     "FIVB Official Volleyball Rules 2013-2016, rule 15.11.1.3, and FIVB Casebook 2007, case 6.3, as the base text of the domestic rules"},
    {"us-domestic-2012", "substitution.rejection-bars-requests", "false",
     "FIVB Official Volleyball Rules 2013-2016, rule 15.2, which ends at 15.2.3, as the base text of the domestic rules"},
    {"us-domestic-2012", "substitution.second-request-after-time-out", "false",
     "memory"},
    {"us-domestic-2012", "libero.designation", "match",
     "US national federation domestic rules, 2011-13, Rules Interpretation Bulletin 1, February 2012, rule 19.1"},
    {"us-domestic-2012", "redesignation.of-disqualified", "sole-libero",
     "FIVB ruling of 2011, made known by the German federation, and FIVB Casebook 2007, case 6.5, as the base text of the domestic rules"},
    {"us-domestic-2012", "redesignation.declared-on-court", "at-once",
     "memory"},
    {"us-domestic-2012", "fault.unregistered-finished-set", "keeps-earlier-points",
     "memory"},
    {"us-domestic-2014", "match.switch-at-long", "13",
     "US national federation domestic rules, 2001-02, commentary on rule 7.1.1"},
    {"us-domestic-2014", "roster.most-by-choice-of-event", "15",
     "memory"},
    {"us-domestic-2014", "team.six-must-start", "true",
     "memory"},
    {"us-domestic-2014", "substitution.exceptional-after-sanction", "false",
     "FIVB Official Volleyball Rules 2013-2016, rule 15.11.1.3, and FIVB Casebook 2007, case 6.3, as the base text of the domestic rules"},
    {"us-domestic-2014", "substitution.rejection-bars-requests", "false",
     "FIVB Official Volleyball Rules 2013-2016, rule 15.2, which ends at 15.2.3, as the base text of the domestic rules"},
    {"us-domestic-2014", "substitution.second-request-after-time-out", "false",
     "memory"},
    {"us-domestic-2014", "redesignation.of-disqualified", "yes",
     "memory"},
    {"us-domestic-2014", "redesignation.declared-on-court", "at-once",
     "memory"},
    {"us-domestic-2014", "fault.unregistered-finished-set", "keeps-earlier-points",
     "memory"},
    {"us-domestic-2021", "match.switch-at-long", "13",
     "US national federation domestic rules, 2001-02, commentary on rule 7.1.1"},
    {"us-domestic-2021", "roster.most-by-choice-of-event", "15",
     "memory"},
    {"us-domestic-2021", "team.six-must-start", "true",
     "memory"},
    {"us-domestic-2021", "substitution.limit", "12",
     "US national federation domestic rules, 2019-21, rule 19, regional questions and answers"},
    {"us-domestic-2021", "substitution.second-request-after-time-out", "false",
     "memory"},
    {"us-domestic-2021", "libero.designation", "match-or-set",
     "US national federation domestic rules, 2019-21, rule 19, regional questions and answers"},
    {"us-domestic-2021", "redesignation.of-disqualified", "yes",
     "memory"},
    {"us-domestic-2021", "redesignation.declared-on-court", "at-once",
     "memory"},
    {"us-domestic-2021", "fault.unregistered-finished-set", "keeps-earlier-points",
     "memory"},
    {"us-domestic-2025", "match.switch-at-long", "13",
     "US national federation domestic rules, 2001-02, commentary on rule 7.1.1"},
    {"us-domestic-2025", "roster.most-by-choice-of-event", "15",
     "memory"},
    {"us-domestic-2025", "team.six-must-start", "true",
     "memory"},
    {"us-domestic-2025", "substitution.second-request-after-time-out", "false",
     "memory"},
    {"us-domestic-2025", "redesignation.of-disqualified", "yes",
     "memory"},
    {"us-domestic-2025", "redesignation.declared-on-court", "at-once",
     "memory"},
    {"us-domestic-2025", "fault.unregistered-finished-set", "keeps-earlier-points",
     "memory"},
    {"us-high-school-2024", "match.switch-at", "8",
     "memory; no text seen has a change of courts in the deciding set, and another recollection says that there is none"},
    {"us-high-school-2024", "match.service-seconds", "5",
     "third-party copies of NFHS examinations"},
    {"us-high-school-2024", "roster.most-by-choice-of-event", "24",
     "memory"},
    {"us-high-school-2024", "team.six-must-start", "true",
     "third-party copies of NFHS examinations"},
    {"us-high-school-2024", "substitution.exceptional-after-sanction", "false",
     "NFHS rule 10-3-6, quoted by an officials' board, 2023"},
    {"us-high-school-2024", "substitution.second-request-after-time-out", "false",
     "memory"},
    {"us-high-school-2024", "redesignation.of-disqualified", "no",
     "NFHS Comments on the Rules 2026-27, rule 10-4-3d"},
    {"us-high-school-2024", "redesignation.declared-on-court", "at-once",
     "memory"},
    {"us-high-school-2024", "delay.point-from", "2",
     "third-party copies of NFHS examinations"},
    {"us-high-school-2024", "fault.unregistered-finished-set", "keeps-earlier-points",
     "memory"},
    {"us-high-school-2026", "match.switch-at", "8",
     "memory; no text seen has a change of courts in the deciding set, and another recollection says that there is none"},
    {"us-high-school-2026", "match.service-seconds", "5",
     "third-party copies of NFHS examinations"},
    {"us-high-school-2026", "roster.most-by-choice-of-event", "24",
     "memory"},
    {"us-high-school-2026", "team.six-must-start", "true",
     "third-party copies of NFHS examinations"},
    {"us-high-school-2026", "substitution.exceptional-after-sanction", "false",
     "NFHS rule 10-3-6, quoted by an officials' board, 2023"},
    {"us-high-school-2026", "substitution.second-request-after-time-out", "false",
     "memory"},
    {"us-high-school-2026", "redesignation.of-disqualified", "no",
     "NFHS Comments on the Rules 2026-27, rule 10-4-3d"},
    {"us-high-school-2026", "redesignation.declared-on-court", "at-once",
     "memory"},
    {"us-high-school-2026", "delay.point-from", "2",
     "third-party copies of NFHS examinations"},
    {"us-high-school-2026", "fault.unregistered-finished-set", "keeps-earlier-points",
     "memory"},
};
// clang-format on

const ProfileValue* value_of(const char* profile, std::string_view key) {
    const Profile* const known = find_profile(profile);
    if (known == nullptr) return nullptr;
    for (const ProfileValue& v : known->values)
        if (v.key == key) return &v;
    return nullptr;
}

TEST(ProfileSource, OfEveryValueSettledAgainstPrint) {
    for (const Settled& row : settled) {
        SCOPED_TRACE(std::string{row.profile} + " " + row.key);
        const ProfileValue* const v = value_of(row.profile, row.key);
        ASSERT_NE(v, nullptr);
        EXPECT_EQ(v->value, row.value);
        EXPECT_EQ(v->source, row.source);
    }
}

TEST(ProfileSource, SaysWhatIsMemoryAndWhatIsOpen) {
    EXPECT_EQ(value_of("us-high-school-2024", "match.switch-at")->evidence, Evidence::memory);
    EXPECT_EQ(value_of("international-2021", "redesignation.declared-on-court")->evidence,
              Evidence::open);
    EXPECT_EQ(value_of("us-domestic-2014", "libero.box-needs-confirmation")->evidence,
              Evidence::practice);
    EXPECT_EQ(value_of("international-2017", "match.points")->evidence, Evidence::published);
}

// The change of courts of the high school decider rests on recollection alone.
TEST(Unproven, ValueIsNamedWithTheVerdictThatRestsOnIt) {
    const std::string words =
        unproven_words(*find_profile("us-high-school-2024"), Reason::switch_due, Action::correct);
    EXPECT_EQ(words,
              "rests on values not seen in print: match.switch-at = 8 (memory), "
              "match.switch-at-long = 13 (memory)");
    EXPECT_NE(unproven_words(*find_profile("international-2021"), Reason::libero_during_replay,
                             Action::delay_warning)
                  .find("libero.replacement-during-replay = true (open)"),
              std::string::npos);
}

TEST(Unproven, ValueOfTheRemedyIsNamedToo) {
    const Profile& college = *find_profile("us-college-women-2024");
    EXPECT_NE(unproven_words(college, Reason::libero_wrong_returner, Action::delay_warning)
                  .find("delay.point-from = 2 (memory)"),
              std::string::npos);
    EXPECT_NE(unproven_words(college, Reason::libero_wrong_returner, Action::point_and_service)
                  .find("fault.cancels = present-term-of-service (memory)"),
              std::string::npos);
}

TEST(Unproven, NothingIsSaidWhereAllWasRead) {
    for (const Action action : {Action::delay_warning, Action::point_and_service})
        EXPECT_EQ(unproven_words(*find_profile("international-2025"),
                                 Reason::libero_no_completed_rally, action),
                  "");
}

// Who acts on a parameter that no verdict rests on is written down, not left to chance.
TEST(Parameter, OfAnotherActorThanTheJudgeIsOneOfTheKnownOnes) {
    std::vector<std::string> people;
    for (const ParameterRow& row : parameter_rows())
        if (row.acted_by == ActedBy::referee || row.acted_by == ActedBy::desk)
            people.emplace_back(row.key);
    EXPECT_EQ(people,
              (std::vector<std::string>{
                  "match.service-seconds", "roster.most-listed", "roster.most-by-choice-of-event",
                  "line-up.sheet-each-set", "line-up.first-due-seconds", "line-up.next-due-seconds",
                  "time-out.may-end-early", "time-out.technical", "interval.longest-seconds"}));
}

TEST(Parameter, OfThePlanReachesTheFormatOfAMatch) {
    const Profile& profile = *find_profile("international-2025");
    for (const ParameterRow& row : parameter_rows()) {
        if (row.acted_by != ActedBy::plan || row.key == "match.switch-at-long") continue;
        for (const std::string& value : other_values(profile, row.key))
            EXPECT_FALSE(with_value(profile.rules, row.key, value).format == profile.rules.format)
                << row.key << " = " << value;
    }
}

}  // namespace
}  // namespace courthand
