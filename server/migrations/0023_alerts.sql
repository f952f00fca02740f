-- Where the life of each alert has come to, so that a start reads what still lives and nothing else.

create table alert_head (
    tournament_id uuid not null references tournament,
    alert_id      text not null check (length(alert_id) between 1 and 128),
    -- Number of its last step in alert_life.
    number        integer not null check (number > 0),
    live          boolean not null,
    primary key (tournament_id, alert_id)
);
create index alert_head_live on alert_head (tournament_id) where live;

-- One that ended by being seen may be called live here: reading its life puts that right.
insert into alert_head (tournament_id, alert_id, number, live)
select distinct on (tournament_id, alert_id) tournament_id, alert_id, number, what not in (3, 4)
from alert_life
order by tournament_id, alert_id, number desc;
