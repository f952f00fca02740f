-- Teams, their lists and courts are kept in the record of the tournament (tournament_fact). The
-- program moves what the tables of before hold into it, empties them and notes when; nobody writes
-- them any more.
alter table tournament add column desk_moved_at timestamptz;

-- 4: the result counts in the record of the tournament.
alter table match drop constraint match_status_check;
alter table match add constraint match_status_check check (status between 1 and 4);
