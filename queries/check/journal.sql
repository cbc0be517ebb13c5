-- What does not hold together in the journal and the decisions.
--
-- One row: one number that is there twice or names nothing.
-- Columns:
--   place  where
--   said   what is wrong
select 'import ' || import as place, 'is in the journal ' || count(*) || ' times' as said
from imports
group by import
having count(*) > 1
union all
select 'line ' || from_file || ' of the journal', 'is there ' || count(*) || ' times'
from import_files
group by from_file
having count(*) > 1
union all
select 'line ' || from_file || ' of the journal', 'names import ' || import || ', which is not there'
from import_files
anti join imports using (import)
union all
select 'decision ' || decision, 'is there ' || count(*) || ' times'
from decisions
group by decision
having count(*) > 1
union all
select 'the point of view', 'is there ' || count(*) || ' times'
from main.asked
having count(*) <> 1
union all
select 'the point of view', 'is not the latest event, which is ' || coalesce(latest_event.as_of::varchar, 'none')
from main.asked as noted
cross join main.latest_event
where noted.as_of is distinct from latest_event.as_of
order by place, said
