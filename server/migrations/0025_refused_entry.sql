-- Entries that a server could not take and that a table still holds, so that the desk at any server of
-- the venue sees them. The match may be unknown here: it has no row then.
create table refused_entry (
    tournament_id uuid not null references tournament,
    match_id      uuid not null,
    device_id     uuid not null,
    court         integer not null default 0 check (court between 0 and 1000),
    -- First entry that was refused; 0: it could not be read.
    number        bigint not null,
    cause         smallint not null,
    message       text not null,
    since         timestamptz not null,
    primary key (tournament_id, match_id, device_id)
);
