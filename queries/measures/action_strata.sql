-- Tasks before and after each action, of its subject and of the others, by what is alike.
--
-- One row: one action, side, subject or others, and stratum.
-- Columns:
--   action    as in action_spans
--   is_after  after the action; else before it
--   is_own    of its subject; else of the others
--   stratum   system, make and model; null where one of them is missing
--   n         tasks
--   count     of these, not first pass
-- Source: definitions, Before and after an action.
select action, is_after, is_own, stratum, count(*) as n, count(*) filter (is_hit) as count
from action_tasks
group by action, is_after, is_own, stratum
order by action, is_after, is_own, stratum
