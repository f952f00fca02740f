-- What the record of the tournament calls the match. Of those that are there already the program says
-- it when it starts.
alter table match add column name text not null default '';
