-- Which entry was refused: a record that has another one with the same number and device does not
-- take the refusal away. Null: the entry could not be read, or the row is older than these columns.
alter table refused_entry add column entry_id uuid;
alter table refused_entry add column entry_hash bytea check (length(entry_hash) = 32);
