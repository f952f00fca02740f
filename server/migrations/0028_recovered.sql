-- The writer's epoch began with an entry and not with a grant, because the grant was lost with what a
-- backup did not hold: the head official is told which table went on. A grant ends it.
alter table match add column recovered boolean not null default false;
update match m set recovered = true from writer_epoch w
    where w.tournament_id = m.tournament_id and w.match_id = m.match_id and w.epoch = m.epoch
    and w.how = 'recovered';
