-- Findings of all kinds, with severity, vehicle and the decision that stands on them.
--
-- One row: one finding.
-- Columns:
--   finding           its identifier, 16 hexadecimal digits
--   kind              the kind
--   class             within the kind; null where it has none
--   severity          high | medium | low
--   shop              the shop's identifier
--   job_no            the job that it is about
--   vin               as stored
--   system            system_word; null where it is about more than one
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
-- Source: definitions, Evidence (Severity, Columns of a finding).
with
names as (                        -- of attempts that were first known by their moment: a number of theirs may change
    select shop, job_no, system, position, attempt_no, known_as from attempts where known_as is not null
),
identified as (
    select
        raised.*,
        finding_id(kind, identifying_class, raised.shop, raised.job_no, raised.system, raised.position,
                   coalesce(own.known_as, raised.attempt_no::varchar), subject,
                   prior_shop, prior_job_no, prior_system, prior_position,
                   coalesce(prior.known_as, prior_attempt_no::varchar)) as finding
    from raised
    left join names as own
        on own.shop = raised.shop and own.job_no = raised.job_no and own.attempt_no = raised.attempt_no
        and own.system = raised.system and own.position is not distinct from raised.position
    left join names as prior
        on prior.shop = prior_shop and prior.job_no = prior_job_no and prior.attempt_no = prior_attempt_no
        and prior.system = prior_system and prior.position is not distinct from prior_position
)
select
    finding, kind, class, severity, shop, job_no, job.vin,
    system, position, attempt_no, subject, identified.at, identified.technician,
    prior_shop, prior_job_no, prior_system, prior_position, prior_attempt_no, days,
    verdict as decision, identified.detail
from identified
join known_jobs as job using (shop, job_no)
left join standing_decisions using (finding)
