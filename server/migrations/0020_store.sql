-- The append at the speed of the database, entries that return from a branch into the record, and
-- the place of the database, by which a copy of it is known.

-- How much lies beside each record, so that no append need count it; and the generation in which
-- the head was last moved, by an entry or a grant.
alter table match add column branches integer not null default 0;
alter table match add column branch_entries integer not null default 0;
alter table match add column moved_in uuid;
update match m set moved_in = t.generation from tournament t
    where t.tournament_id = m.tournament_id;
alter table match alter column moved_in set not null;
update match m set branches = b.branches, branch_entries = b.entries
    from (select tournament_id, match_id, max(branch) as branches, count(*) as entries
          from branch group by tournament_id, match_id) b
    where b.tournament_id = m.tournament_id and b.match_id = m.match_id;

-- Hash of the entry before; null in rows from before this column.
alter table branch add column previous bytea;
create index branch_by_hash on branch (tournament_id, match_id, hash);
create index branch_by_previous on branch (tournament_id, match_id, previous);
create index branch_by_writer on branch (tournament_id, match_id, device_id, epoch);
drop index branch_of_match;

-- A trace of each entry that lay on a branch and turned out to continue the record.
create table promotion (
    tournament_id uuid not null,
    match_id      uuid not null,
    entry_id      uuid not null,
    branch        integer not null,
    branch_position bigint not null,
    position      bigint not null,
    branched_at   timestamptz not null,
    promoted_at   timestamptz not null default now(),
    primary key (tournament_id, entry_id),
    foreign key (tournament_id, match_id) references match
);

-- recovered: the grant was lost with what a backup did not hold, and the record went on all the same.
alter table writer_epoch drop constraint writer_epoch_how_check;
alter table writer_epoch add constraint writer_epoch_how_check
    check (how in ('first', 'granted', 'taken-over', 'recovered'));

-- Entries and branches are the feed themselves, by their position; the table holds the rest.
delete from feed where kind in (1, 2);
alter table feed drop constraint feed_kind_check;
alter table feed add constraint feed_kind_check check (kind between 3 and 5);
create unique index entry_feed on entry (tournament_id, position);
create unique index branch_feed on branch (tournament_id, position);

-- Whoever appends holds the row of the match, so it is there: a look for each entry would be for
-- nothing.
alter table entry drop constraint entry_tournament_id_match_id_fkey;
alter table branch drop constraint branch_tournament_id_match_id_fkey;

-- Rows that every append rewrites: room for their new versions on the same page.
alter table match set (fillfactor = 50);
alter table tournament set (fillfactor = 50);

-- Ends an append that rested on a head, a generation or an id that is another by now; nothing of its
-- statement stays.
create function append_guard_missed() returns bigint language plpgsql as $$
begin
    raise exception using errcode = 'CH001', message = 'a guard of the append missed';
end
$$;

-- Where a database lives: its cluster, the cluster's timeline, and its own number there. A restart
-- changes none of them; a copy into another database or cluster and a standby that takes over do.
-- Null on a standby, which is nowhere yet.
create function database_place() returns text language sql volatile as $$
    select case when not pg_is_in_recovery() then
        (select system_identifier from pg_control_system()) || '/' ||
        substr(pg_walfile_name(pg_current_wal_insert_lsn()), 1, 8) || '/' ||
        (select oid from pg_database where datname = current_database())
    end
$$;

-- Null until it was noticed first: then the generation stays.
alter table tournament add column place text;

-- Every connection calls it before it is used: a database that stands elsewhere than before may have
-- gone back, and says so by another generation. The number of tournaments that were renewed.
create function notice_place() returns bigint language plpgsql as $$
declare
    here text := database_place();
    renewed bigint := 0;
begin
    if here is null or not exists (select from tournament where place is distinct from here) then
        return 0;
    end if;
    select count(*) into renewed from tournament where place <> here;
    update tournament
        set generation = case when place is null then generation else gen_random_uuid() end,
            place = here
        where place is distinct from here;
    return renewed;
end
$$;

-- By hand, after a copy that cannot be noticed, such as a disk that was put back as a whole.
create function renew_generation() returns void language sql as $$
    update tournament set generation = gen_random_uuid(), place = database_place()
$$;
