-- What was done about quality.
--
-- One row: one action, or several on one subject shortly after one another.
-- Columns:
--   action        as in action_spans
--   shop          the shop's identifier
--   subject_kind  as in known_actions
--   subject       as recorded; null where the subject is the shop
--   taken_at      when
--   what          what was done
--   by            who did it
--   is_over       the 180 days after it, or the next action, have come
--   n             jobs with a task of the subject before or after
--   units         these tasks
--   hits          of these, not first pass
--   units_squared  sum over the jobs of tasks times tasks
--   hits_squared   sum over the jobs of hits times hits
--   units_x_hits   sum over the jobs of tasks times hits
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only actions at or after this moment; null for all
--   $to    only actions at or before this moment; null for all
-- Source: definitions, Before and after an action.
with
jobs as (
    select action, job_id, count(*) as k, count(*) filter (is_hit) as y
    from action_tasks
    where is_own
    group by action, job_id
),
clusters as (
    select
        action, count(*) as n, sum(k) as units, sum(y) as hits, sum(k * k) as units_squared, sum(y * y) as hits_squared,
        sum(k * y) as units_x_hits
    from jobs
    group by action
)
select
    action, shop, subject_kind, subject, taken_at, what, by, is_over, coalesce(n, 0) as n,
    coalesce(units, 0)::bigint as units, coalesce(hits, 0)::bigint as hits,
    coalesce(units_squared, 0)::bigint as units_squared, coalesce(hits_squared, 0)::bigint as hits_squared,
    coalesce(units_x_hits, 0)::bigint as units_x_hits
from action_spans
left join clusters using (action)
where ($shop is null or shop = $shop)
    and ($from is null or taken_at >= $from::timestamp)
    and ($to is null or taken_at <= $to::timestamp)
order by action
