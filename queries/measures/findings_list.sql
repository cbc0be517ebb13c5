-- Findings that pass the filters, the gravest first.
--
-- One row: one finding; the columns are those of findings.
-- Columns:
--   finding           its identifier
--   kind              the kind
--   class             within the kind
--   severity          high | medium | low
--   shop              the shop's identifier
--   job_no            the job that it is about
--   vin               as stored
--   system            system_word
--   position          position_word
--   attempt_no        the attempt
--   subject           fault, quantity, equipment, target or kind of document in question
--   at                its time
--   technician        whose work it concerns
--   prior_shop        the other record that it rests on
--   prior_job_no      the other record
--   prior_system      the other record
--   prior_position    the other record
--   prior_attempt_no  the other record
--   days              a comeback's days from closing to return
--   decision          confirmed | dismissed | null
--   detail            in words; where the shop's clocks seem to disagree it says so, but not as a bundle has it
--   decided_by        who confirmed or dismissed it
--   decided_at        when
--   decision_note     why
-- Parameters:
--   $kinds       only these kinds, joined by commas; null for all
--   $classes     only these classes, joined by commas; null for all
--   $severities  only these severities, joined by commas; null for all
--   $undecided   true: only those that nobody has confirmed or dismissed
--   $insurer     only on this insurer's jobs, without regard to case; null for all
--   $shop        only this shop; null for all
--   $from        only findings at or after this moment; null for all
--   $to          only findings at or before this moment; null for all
with
clocks as (
    select shop, job_no, kind, round(minutes)::bigint as minutes
    from clock_suspects
    where getvariable('judged_by') is null
)
select
    finding, kind, class, severity, shop, job_no, vin, system, position, attempt_no, subject, findings.at, technician,
    prior_shop, prior_job_no, prior_system, prior_position, prior_attempt_no, days, decision,
    detail || coalesce(
        '; ' || minutes || ' min before the end of the work, as often here: do two clocks of the shop disagree?', ''
    ) as detail,
    standing.decided_by, standing.at as decided_at, standing.note as decision_note
from findings
left join standing_decisions as standing using (finding)
left join clocks using (shop, job_no, kind)
where ($kinds is null or list_contains(string_split($kinds, ','), kind))
    and ($classes is null or list_contains(string_split($classes, ','), class))
    and ($severities is null or list_contains(string_split($severities, ','), severity::varchar))
    and (decision is null or not coalesce($undecided::boolean, false))
    and (
        $insurer is null
        or (shop, job_no) in (select (shop, job_no) from known_jobs where lower(insurer) = lower($insurer))
    )
    and ($shop is null or shop = $shop)
    and ($from is null or findings.at >= $from::timestamp)
    and ($to is null or findings.at <= $to::timestamp)
order by list_position(['high', 'medium', 'low'], severity), findings.at desc, shop, job_no, kind, finding
