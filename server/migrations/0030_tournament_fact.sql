-- The record of a tournament: what the desk has done, never changed. Numbers begin with 1 and have
-- no gap; each hash is over the bytes and the hash before, as in the record of a match.
create table tournament_fact (
    tournament_id uuid not null references tournament,
    number        integer not null check (number between 1 and 50000),
    fact_id       uuid not null,
    device_id     uuid not null,
    hash          bytea not null check (length(hash) = 32),
    bytes         bytea not null check (length(bytes) <= 16384),
    -- Words that stand beside it, sealed by a hash in the bytes. Null: none, or erased for good.
    salt          bytea check (length(salt) <= 32),
    words         bytea check (length(words) <= 500),
    stored_at     timestamptz not null default now(),
    primary key (tournament_id, number),
    unique (tournament_id, fact_id)
);

-- 6: the record of the tournament has grown; the facts are read by number.
alter table feed drop constraint feed_kind_check;
alter table feed add constraint feed_kind_check check (kind between 3 and 6);
