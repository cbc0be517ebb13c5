-- Why attempts did not complete: failure codes or texts, the commonest first, and what came of them.
--
-- One row: one failure code, or one text without regard to case, figures, punctuation and spacing.
-- Columns:
--   name            the code in capitals, or the text in its commonest spelling; null where none is recorded
--   usual           the commonest text of the code, or the commonest code of the text; null where none is recorded
--   spellings       in how many ways the code or text is written; 0 where none is recorded
--   n               attempts that did not complete
--   jobs            jobs that hold them
--   retried         attempts of n that another followed in the task
--   completed_next  of these, with that next attempt completed
--   matured         jobs, of those closed and followed for the whole window
--   came_back       of these, with a counted comeback within it
-- Parameters:
--   $by    code | text
--   $shop  only this shop; null for all
--   $from  only attempts started at or after this moment; null for all
--   $to    only attempts started at or before this moment; null for all
-- Source: definitions, Calibrations and Comebacks (Follow-up). Figures become #, so that 1512 mm and 1488 mm are one text.
with
failed as (
    select
        job_id, task_id, nth + 1 as next_nth, failure_code as code, failure_text as text,
        case $by
            when 'code' then nullif(upper(trim(failure_code)), '')
            else nullif(trim(regexp_replace(
                regexp_replace(lower(failure_text), '[0-9]+([.,][0-9]+)*', '#', 'g'), '[^\p{L}#]+', ' ', 'g'
            )), '')
        end as folded
    from attempts
    where outcome <> 'completed'
        and ($shop is null or shop = $shop)
        and ($from is null or started_at >= $from::timestamp)
        and ($to is null or started_at <= $to::timestamp)
),
followed as materialized (
    select failed.*, next.outcome as next_outcome, coalesce(follow_up.matured, false) as matured, follow_up.came_back
    from failed
    left join attempts as next on next.task_id = failed.task_id and next.nth = failed.next_nth
    left join follow_ups as follow_up on follow_up.job_id = failed.job_id
),
spelled as (
    select folded, code, text, count(*) as times from followed group by folded, code, text
),
codes as (
    select folded, code, sum(times) as times from spelled where code is not null group by folded, code
),
texts as (
    select folded, text, sum(times) as times from spelled where text is not null group by folded, text
),
usual_codes as (                  -- of equally common ones the first in byte order
    select folded, arg_min(code, (-times, code)) as code, count(*) as spellings from codes group by folded
),
usual_texts as (
    select folded, arg_min(text, (-times, text)) as text, count(*) as spellings from texts group by folded
),
counted as (
    select
        folded, count(*) as n, count(distinct job_id) as jobs,
        count(next_outcome) as retried, count(*) filter (next_outcome = 'completed') as completed_next,
        count(distinct job_id) filter (matured) as matured,
        count(distinct job_id) filter (matured and came_back) as came_back
    from followed
    group by folded
)
select
    case when $by = 'code' then counted.folded when counted.folded is not null then usual_texts.text end as name,
    case when $by = 'code' then usual_texts.text else usual_codes.code end as usual,
    case
        when counted.folded is null then 0 when $by = 'code' then usual_codes.spellings else usual_texts.spellings
    end as spellings,
    n, jobs, retried, completed_next, matured, came_back
from counted
left join usual_codes on usual_codes.folded is not distinct from counted.folded
left join usual_texts on usual_texts.folded is not distinct from counted.folded
order by n desc, name nulls last
