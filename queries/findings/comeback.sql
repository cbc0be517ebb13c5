-- Return visits, each tied to one earlier job.
--
-- One row: one return visit.
-- Columns:
--   class         one of the classes below
--   shop          the return visit
--   job_no        the return visit
--   at            when the vehicle returned
--   technician    who leads the return visit
--   prior_shop    the earlier job
--   prior_job_no  the earlier job
--   days          from closing to return, days
--   detail        why it is taken for a comeback
-- Finding:
--   name      Comeback
--   means     The vehicle returned after a calibration.
--   rule      A return visit tied to one earlier calibrated job: named by the shop itself (linked), or the same
--             well-formed VIN within the window with a complaint about a system calibrated then (probable). Counted are
--             linked, probable and confirmed ones that nobody dismissed; possible, continuation and uncalibrated ones
--             are listed and in no rate. One a return visit, tied to the earlier job that fits best, of equals to the
--             latest.
--   page      comebacks 10
--   severity  high where class is linked, probable or uncalibrated; low where class is continuation; else medium
--   identity  keys
-- Classes:
--   linked        named by the shop
--   probable      probable (a complaint about a system calibrated then)
--   continuation  continuation (the earlier job was left unfinished)
--   possible      possible
--   uncalibrated  calibration had been left out
-- Decide:
--   50   where class is uncalibrated: Came back for a calibration that was left out. The skipped calibration is the
--        likely cause of the complaint.
--   60   where class is linked: Came back: the shop says so itself. The customer was without a working system for these
--        days.
--   70   where class is probable: Came back with a complaint about a system calibrated here. It counts as a comeback
--        unless someone dismisses it.
--   90   where class is possible: Perhaps a comeback: count it or not? It is in no rate until someone confirms it.
-- Source: definitions, Comebacks.
select
    comeback.class, comeback.shop, comeback.job_no, comeback.opened_at as at, back.technician,
    comeback.prior_shop, comeback.prior_job_no, comeback.days,
    case comeback.class
        when 'linked' then 'the shop names the earlier job itself'
        when 'probable' then 'complaint about a system calibrated then'
        when 'continuation' then 'the earlier job was left unfinished, this one goes on with it'
        when 'possible' then 'same vehicle, connection not certain'
        else 'the front camera was not calibrated then, and is the complaint now'
    end || coalesce(': ' || back.complaint, '') as detail
from comebacks as comeback
join known_jobs as back using (job_id)
