-- Enrolment codes whose secret is too long to try out: wrong tries no longer cost a code. A code
-- knows the device that used it, so that an answer lost on the way can be asked for again. Public
-- keys of devices are kept, for what they sign.

-- Codes of the former form cannot be typed any more.
delete from enrolment_code where used_at is null;
drop index enrolment_code_lookup;
alter table enrolment_code drop column lookup;
alter table enrolment_code drop column tries_left;
alter table enrolment_code add column used_by uuid;
create index enrolment_code_open on enrolment_code (tournament_id, expires_at) where used_at is null;

-- DER, SubjectPublicKeyInfo. Null: enrolled before keys were kept.
alter table device add column if not exists key bytea;
