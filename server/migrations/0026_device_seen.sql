-- When each device was heard last by whichever server of the venue, so that a table that talks to
-- one is not called silent at the other. Rewritten in coarse steps; the rows of yesterday go.
create table device_seen (
    tournament_id uuid not null references tournament,
    device_id     uuid not null,
    -- Of the device's certificate; 0: none.
    court         integer not null default 0 check (court between 0 and 1000),
    seen_at       timestamptz not null,
    primary key (tournament_id, device_id)
) with (fillfactor = 50);
