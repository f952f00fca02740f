"""The check of reasons finds what was planted for it, and lets pass what is right."""

import unittest

import reasons_test


def found(path, text):
    return [line for _, line, _, _ in reasons_test.check({path: text})]


class Reasons(unittest.TestCase):
    def test_a_comparison_outside_the_core_is_found(self):
        self.assertEqual(found("server/alerts/x.cpp", "\nif (r == Reason::sub_limit) {}\n"), [2])

    def test_a_case_in_an_engine_of_the_core_is_found(self):
        self.assertEqual(found("shared-core/rules/remedy.cpp", "case Reason::sub_limit: x();"), [1])

    def test_a_judge_may_compare_with_what_it_raises(self):
        text = "raise(c, {Reason::sub_limit, team});\nif (f.reason == Reason::sub_limit) {}\n"
        self.assertEqual(found("shared-core/rules/judge_x.cpp", text), [])

    def test_a_judge_may_not_compare_with_what_another_raises(self):
        text = "raise(c, {Reason::sub_limit, team});\nif (Reason::team_short != f.reason) {}\n"
        self.assertEqual(found("shared-core/rules/judge_x.cpp", text), [2])

    def test_order_is_found_in_tests_too(self):
        self.assertEqual(found("tests/x.cpp", "if (a <= Reason::libero_out_of_place) {}"), [1])
        self.assertEqual(found("tests/x.cpp", "if (Reason::sub_limit < a) {}"), [1])

    def test_tests_may_name_what_they_expect(self):
        self.assertEqual(found("tests/x.cpp", "EXPECT_EQ(v.reason, Reason::sub_limit);"), [])

    def test_another_name_for_reasons_is_found(self):
        self.assertEqual(found("shared-core/rules/judge_x.cpp", "using R = courthand::Reason;"), [1])
        self.assertEqual(found("tests/x.cpp", "using enum Reason;"), [1])

    def test_comments_say_what_they_like(self):
        self.assertEqual(found("server/x.cpp", "int a;  // as Reason::sub_limit"), [])

    def test_the_table_tells_reasons_apart(self):
        self.assertEqual(found(reasons_test.TABLES[0], "{Reason::sub_limit, 1},"), [])


if __name__ == "__main__":
    unittest.main()
