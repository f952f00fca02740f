-- What the path from table to server needs: courts of large events, take-over of a match, the
-- generation of the database, signatures of entries, snapshots of matches.

alter table court drop constraint court_court_check;
alter table court add constraint court_court_check check (court between 1 and 1000);
alter table match drop constraint match_court_check;
alter table match add constraint match_court_check check (court between 0 and 1000);
alter table enrolment_code drop constraint enrolment_code_court_check;
alter table enrolment_code add constraint enrolment_code_court_check
    check (court between 0 and 1000);
alter table device drop constraint device_court_check;
alter table device add constraint device_court_check check (court between 0 and 1000);

-- Null: no device asks to take over. A grant ends the wish.
alter table match add column asked_by uuid;
alter table match add column asked_at timestamptz;

-- What was called incarnation is the generation of the database.
alter table tournament rename column incarnation to generation;

-- By the key of the entry's device, so that another device may hand the entry on. Null: not signed.
alter table entry add column signature bytea check (length(signature) <= 80);
alter table branch add column signature bytea check (length(signature) <= 80);

-- What a match came to, so that a server need not fold its record again when it starts. A cache:
-- it may be emptied at any time.
create table match_snapshot (
    tournament_id uuid not null,
    match_id      uuid not null,
    last_number   integer not null,
    hash          bytea not null,
    form          text not null,
    bytes         bytea not null,
    made_at       timestamptz not null default now(),
    primary key (tournament_id, match_id),
    foreign key (tournament_id, match_id) references match
);
