-- A backup of a schema before 0020 that was put back: deploy/restore could not give the database
-- another generation and say with it which heads are of before, so it left a mark. 0020 took every
-- head for one of today; those that nobody moved since the restore are not: a grant that came after
-- the backup may be lost with it, and what proves it is taken (see 0020, moved_in).
do $$
begin
    if to_regclass('put_back_heads') is null then
        return;
    end if;
    -- No generation: no tournament has it.
    update match m set moved_in = '00000000-0000-0000-0000-000000000000'
        from put_back_heads h
        where h.tournament_id = m.tournament_id and h.match_id = m.match_id
        and h.epoch = m.epoch and h.last_number = m.last_number and h.head_hash = m.head_hash;
    drop table put_back_heads;
end
$$;
