-- A row that the database has kept without confirming it is handed over again: then it stands there
-- already. Null: written before rows had an id.
alter table audit add column row_id uuid;
create unique index audit_row on audit (tournament_id, row_id);
