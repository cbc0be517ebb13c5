-- Findings about the jobs asked for, and those that rest on them as the earlier record.
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
--   detail            in words
--   decided_by        who confirmed or dismissed it
--   decided_at        when
--   decision_note     why
-- Parameters:
--   $jobs  shop and job_no joined by chr(31), jobs joined by chr(30)
with
named as (
    select distinct split_part(name, chr(31), 1) as shop, split_part(name, chr(31), 2) as job_no
    from (select unnest(string_split($jobs, chr(30))) as name)
),
wanted as (
    select finding from findings semi join named using (shop, job_no)
    union
    select finding
    from findings
    semi join named on named.shop = prior_shop and named.job_no = prior_job_no
)
select
    finding, kind, class, severity, shop, job_no, vin, system, position, attempt_no, subject, findings.at, technician,
    prior_shop, prior_job_no, prior_system, prior_position, prior_attempt_no, days, decision, detail,
    standing.decided_by, standing.at as decided_at, standing.note as decision_note
from findings
semi join wanted using (finding)
left join standing_decisions as standing using (finding)
order by findings.at, shop, job_no, kind, finding
