-- True: words stand beside the fact elsewhere, and the event came here without them. Without words
-- and not true, where the bytes seal some: they were erased for good.
alter table tournament_fact add column words_left_out boolean not null default false;
