-- Visits: a known job with what was done in it, names in their commonest spelling.
--
-- One row: one job.
-- Columns:
--   shop               the shop's identifier
--   job_no             its repair-order number
--   vehicle            the VIN where it is well formed
--   make               commonest spelling
--   model              commonest spelling
--   model_year         year
--   insurer            commonest spelling
--   opened_at          vehicle in
--   closed_at          vehicle out; null while open
--   reason             reason_word
--   technician         who led the job
--   is_calibrated      has an attempt
--   has_front_camera   has an attempt on the front camera
--   calls_for_camera   a windshield in the glass records, or a reason that moves the front camera
--   first_started_at   start of the first attempt
--   first_on_date      that start was a date alone
--   windshield_source  glass_source_word; null where no windshield is in the glass records
--   brand              of the windshield, commonest spelling
--   supplier           of the windshield, commonest spelling
--   before_scan_no     the earliest pre scan
--   before_scanned_at  its moment
--   after_scan_no      the latest post scan
--   after_scanned_at   its moment
--   matured            calibrated, closed, and followed for the whole window
--   job_id             as in known_jobs
-- Source: definitions, Calibrations, Comebacks (Follow-up) and Post-scan faults.
with
job_attempts as (
    select
        job_id,
        bool_or(system = 'front_camera') as has_front_camera,
        min(started_at) as first_started_at,
        min(started_at) filter (not started_on_date) as first_timed_at
    from attempts
    group by job_id
),
job_scans as (                    -- the first by moment, then by scan_no, has the least place
    select
        job_id,
        min(place) filter (stage = 'pre') as before,
        max(place) filter (stage = 'post') as after
    from (
        -- both in one number: microseconds in the high bits, the number, from 0 upwards, in the low 32
        select job_id, stage, epoch_us(scanned_at)::hugeint * 4294967296 + (scan_no::bigint + 2147483648) as place
        from known_scans
    )
    group by job_id
),
windshields as (
    select job_id, source, brands.shown as brand, suppliers.shown as supplier
    from known_glass
    left join spellings as brands on brands.field = 'brand' and brands.name = brand
    left join spellings as suppliers on suppliers.field = 'supplier' and suppliers.name = supplier
    where position = 'windshield'
)
select
    job.shop, job.job_no, job.vehicle, makes.shown as make, models.shown as model, job.model_year,
    insurers.shown as insurer, job.opened_at, job.closed_at, job.reason, job.technician,
    job_attempts.job_id is not null as is_calibrated,
    coalesce(job_attempts.has_front_camera, false) as has_front_camera,
    windshields.job_id is not null or job.reason in ('windshield_replacement', 'camera_removed') as calls_for_camera,
    job_attempts.first_started_at,
    -- of two attempts at one moment a timed one decides: its order within the day is known
    case when job_attempts.job_id is not null
        then coalesce(job_attempts.first_started_at < job_attempts.first_timed_at, true) end as first_on_date,
    windshields.source as windshield_source, windshields.brand, windshields.supplier,
    ((before & 4294967295) - 2147483648)::integer as before_scan_no,
    make_timestamp((before >> 32)::bigint) as before_scanned_at,
    ((after & 4294967295) - 2147483648)::integer as after_scan_no,
    make_timestamp((after >> 32)::bigint) as after_scanned_at,
    job_attempts.job_id is not null
        and coalesce(job.closed_at + to_days(asked.window_days) <= asked.as_of, false) as matured,
    job.job_id
from known_jobs as job
cross join asked
left join job_attempts using (job_id)
left join job_scans using (job_id)
left join windshields using (job_id)
left join spellings as makes on makes.field = 'make' and makes.name = job.make
left join spellings as models on models.field = 'model' and models.name = job.model
left join spellings as insurers on insurers.field = 'insurer' and insurers.name = job.insurer
