-- Make room for what the lines of another program's list have become.
--
-- Each of its rows is one attempt, scan or road test that a line gave.
create or replace temporary table line_records (
    kind varchar, line bigint, shop varchar, job_no varchar, system system_word, position position_word, stage stage_word,
    at timestamp, on_date boolean, number integer, known_as varchar
)
