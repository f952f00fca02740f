-- Devices and their enrolment, the lives of alerts, and teams that keep their id when a list is
-- imported again.

create unique index team_by_name on team (tournament_id, name, club);

-- Only a keyed hash of the digits is kept. lookup: the leading digit, by which wrong tries count.
create table enrolment_code (
    tournament_id uuid not null references tournament,
    hash          text not null,
    lookup        text not null,
    seat          text not null check (seat in ('table', 'desk', 'head')),
    court         integer not null default 0 check (court between 0 and 99),
    expires_at    timestamptz not null,
    tries_left    smallint not null check (tries_left >= 0),
    used_at       timestamptz,
    created_at    timestamptz not null default now(),
    primary key (tournament_id, hash)
);
create index enrolment_code_lookup on enrolment_code (tournament_id, lookup);

create table device (
    tournament_id uuid not null references tournament,
    device_id     uuid not null,
    name          text not null,
    seat          text not null check (seat in ('table', 'desk', 'head')),
    court         integer not null default 0 check (court between 0 and 99),
    enrolled_at   timestamptz not null,
    revoked_at    timestamptz,
    primary key (tournament_id, device_id)
);

-- One row for each step in the life of an alert; nothing is changed or deleted.
-- what: 0 opened, 1 acknowledged, 2 claimed, 3 ruled, 4 cleared, 5 shelved, 6 returned.
create table alert_life (
    tournament_id uuid not null references tournament,
    alert_id      text not null check (length(alert_id) between 1 and 128),
    number        integer not null check (number > 0),
    what          smallint not null check (what between 0 and 6),
    at            timestamptz not null,
    by            text not null default '',
    note          text not null default '',
    accepted      boolean not null default false,
    until         timestamptz,
    kind          text not null default '',
    -- With "opened": a serialized courthand.v1.Alert as it was raised.
    body          bytea,
    primary key (tournament_id, alert_id, number)
);
