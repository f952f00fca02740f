-- Who writes is who is certified: the key of a device, and what was done and refused.

-- DER SubjectPublicKeyInfo, kept at enrolment: with it another device may hand signed entries on.
-- Null: enrolled before keys were kept.
alter table device add column if not exists key bytea;

-- Every act and every refusal. Nothing is changed or removed.
create table audit (
    tournament_id uuid not null references tournament,
    number        bigint generated always as identity,
    at            timestamptz not null,
    -- As the caller's certificate says; null: it had none.
    device_id     uuid,
    seat          text check (seat in ('table', 'desk', 'head')),
    court         integer not null default 0 check (court between 0 and 1000),
    act           text not null check (length(act) between 1 and 64),
    subject       text not null default '' check (octet_length(subject) <= 128),
    detail        text not null default '' check (octet_length(detail) <= 500),
    refused       boolean not null,
    primary key (tournament_id, number)
);
