-- Tournaments, the plan of their matches, and the records.
--
-- tournament_id leads every key, and no query crosses it, so that the same schema can be
-- partitioned or distributed by tournament. Bytes of entries are kept exactly as they arrived.

create table tournament (
    tournament_id uuid primary key,
    name          text not null check (length(name) between 1 and 200),
    -- A cursor names the incarnation it was taken from; another one makes it worthless.
    incarnation   uuid not null,
    -- Last position of the feed; moved only under the advisory lock of the sequencer.
    feed_head     bigint not null default 0,
    created_at    timestamptz not null default now()
);

create table court (
    tournament_id uuid not null references tournament,
    court         integer not null check (court between 1 and 99),
    name          text not null default '',
    primary key (tournament_id, court)
);

create table team (
    tournament_id uuid not null references tournament,
    team_id       uuid not null,
    name          text not null check (length(name) between 1 and 200),
    club          text not null default '',
    colour        text not null default '',
    primary key (tournament_id, team_id)
);

-- A venue may work with numbers only: then name is null.
create table roster (
    tournament_id uuid not null,
    team_id       uuid not null,
    jersey        smallint not null check (jersey between 0 and 99),
    line          integer not null default 0,
    name          text,
    captain       boolean not null default false,
    libero        boolean not null default false,
    primary key (tournament_id, team_id, jersey),
    foreign key (tournament_id, team_id) references team
);

create table match (
    tournament_id uuid not null references tournament,
    match_id      uuid not null,
    -- Place in the plan; 0 for a match that a table opened by itself.
    number        integer not null,
    court         integer not null default 0 check (court between 0 and 99),
    first_team    uuid,
    first_name    text not null,
    first_club    text not null default '',
    first_colour  text not null default '',
    second_team   uuid,
    second_name   text not null,
    second_club   text not null default '',
    second_colour text not null default '',
    -- How the match is won, in the order of the core's MatchFormat.
    format        smallint[] not null,
    profile       text not null,
    profile_hash  bytea not null check (length(profile_hash) = 8),
    status        smallint not null check (status between 1 and 3),
    scheduled_at  timestamptz,
    opened_at_table boolean not null default false,
    -- The head of the record, checked and moved under the row lock of the match.
    epoch         integer not null default 0,
    grant_id      uuid,
    writer        uuid,
    self_granted  boolean not null default false,
    last_number   integer not null default 0,
    head_hash     bytea not null check (length(head_hash) = 32),
    created_at    timestamptz not null default now(),
    primary key (tournament_id, match_id)
);

create table writer_epoch (
    tournament_id uuid not null,
    match_id      uuid not null,
    epoch         integer not null,
    grant_id      uuid not null,
    device_id     uuid not null,
    how           text not null check (how in ('first', 'granted', 'taken-over')),
    reason        text not null default '',
    from_number   integer not null,
    granted_at    timestamptz not null default now(),
    primary key (tournament_id, match_id, epoch),
    foreign key (tournament_id, match_id) references match
);

create table entry (
    tournament_id uuid not null,
    match_id      uuid not null,
    number        integer not null check (number > 0),
    epoch         integer not null,
    entry_id      uuid not null,
    device_id     uuid not null,
    hash          bytea not null,
    bytes         bytea not null,
    position      bigint not null,
    stored_at     timestamptz not null default now(),
    primary key (tournament_id, match_id, number),
    unique (tournament_id, entry_id),
    foreign key (tournament_id, match_id) references match
);

-- What a fenced writer or a fork sent: kept beside the record until a person chooses.
create table branch (
    tournament_id uuid not null,
    match_id      uuid not null,
    entry_id      uuid not null,
    number        integer not null check (number > 0),
    epoch         integer not null,
    device_id     uuid not null,
    -- Branches of a match are numbered from 1: one for each device and epoch.
    branch        integer not null check (branch > 0),
    hash          bytea not null,
    bytes         bytea not null,
    why           text not null,
    position      bigint not null,
    stored_at     timestamptz not null default now(),
    primary key (tournament_id, entry_id),
    foreign key (tournament_id, match_id) references match
);
create index branch_of_match on branch (tournament_id, match_id);

-- kind: 1 entry, 2 branch, 3 the plan or the writer of the match changed, 4 ruling for a table,
-- 5 word of the alerts. Bytes of 1 and 2 stand in their own tables.
create table feed (
    tournament_id uuid not null references tournament,
    position      bigint not null,
    kind          smallint not null check (kind between 1 and 5),
    match_id      uuid,
    item_id       uuid,
    bytes         bytea,
    at            timestamptz not null default now(),
    primary key (tournament_id, position)
);
create unique index feed_notice on feed (tournament_id, item_id) where kind in (4, 5);
create index feed_of_match on feed (tournament_id, match_id, position);
