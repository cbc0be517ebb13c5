-- How the text of another program's file is brought into the form of the record layout: macros for mapping profiles.
--
-- What cannot be brought into that form stays as it is, and the layout's own readings then set its row aside with the
-- value as the shop wrote it.

-- A year of two digits lies between 1970 and 2069.
create or replace temporary macro full_year(digits) as
    case when length(digits) = 2 then (case when digits >= '70' then '19' else '20' end) || digits else digits end;

-- A clock of 12 or 24 hours as 14:05 or 14:05:30; null where it is none.
create or replace temporary macro clock_text(x) as
    case
        when x is null or x = '' then ''
        when regexp_full_match(x, '[0-9]{1,2}:[0-9]{2}(:[0-9]{2}([.][0-9]+)?)?( ?([AaPp])[.]?[Mm][.]?)?') then
            ' ' || lpad(((regexp_extract(x, '^[0-9]+')::integer
                + case
                    when regexp_matches(x, '[Pp][.]?[Mm]') and regexp_extract(x, '^[0-9]+')::integer < 12 then 12
                    when regexp_matches(x, '[Aa][.]?[Mm]') and regexp_extract(x, '^[0-9]+')::integer = 12 then -12
                    else 0
                  end))::varchar, 2, '0')
            || regexp_extract(x, ':[0-9]{2}(:[0-9]{2}([.][0-9]+)?)?')
    end;

-- A day in the order named (mdy, dmy or ymd) as 2026-03-09; null where it is none.
create or replace temporary macro day_text(x, day_order) as
    case
        when regexp_full_match(x, '[0-9]{4}[-/.][0-9]{1,2}[-/.][0-9]{1,2}') then
            regexp_extract(x, '^([0-9]+)', 1) || '-' || lpad(regexp_extract(x, '^[0-9]+.([0-9]+)', 1), 2, '0')
            || '-' || lpad(regexp_extract(x, '([0-9]+)[^0-9]*\z', 1), 2, '0')
        when regexp_full_match(x, '[0-9]{1,2}[-/. ]+[0-9]{1,2}[-/. ]+([0-9]{2}|[0-9]{4})') and day_order in ('mdy', 'dmy') then
            full_year(regexp_extract(x, '([0-9]+)[^0-9]*\z', 1)) || '-'
            || lpad(case when day_order = 'mdy' then regexp_extract(x, '^([0-9]+)', 1)
                         else regexp_extract(x, '^[0-9]+[^0-9]+([0-9]+)', 1) end, 2, '0') || '-'
            || lpad(case when day_order = 'mdy' then regexp_extract(x, '^[0-9]+[^0-9]+([0-9]+)', 1)
                         else regexp_extract(x, '^([0-9]+)', 1) end, 2, '0')
        -- a spreadsheet's serial, in the 1900 system from March 1900 on
        when regexp_full_match(x, '[0-9]{5}') and x between '00061' and '99999'
        then (date '1899-12-30' + x::integer)::varchar
    end;

-- A moment in the form of the record layout; null where it is none.
create or replace temporary macro known_moment(x, day_order) as
    case
        when regexp_full_match(x, '[0-9]{5}[.][0-9]+') then
            (timestamp '1899-12-30 00:00:00' + to_seconds(round(x::double * 86400)::bigint))::varchar
        else day_text(regexp_extract(x, '^([^ T]+)', 1), day_order)
            || clock_text(trim(regexp_extract(x, '^[^ T]+[ T](.*)\z', 1)))
    end;
create or replace temporary macro moment_text(x, day_order) as
    case
        when read_moment(known_moment(tidy(x), day_order)) is not null then known_moment(tidy(x), day_order)
        else x
    end;

-- A number in the form of the record layout, from one with the decimal and thousands marks named, and its unit taken off.
create or replace temporary macro unmarked(x, decimal_mark, thousands_mark) as
    replace(case when thousands_mark = '' then tidy(x) else replace(tidy(x), thousands_mark, '') end, decimal_mark, '.');
create or replace temporary macro number_text(x, decimal_mark, thousands_mark) as
    case
        when thousands_mark <> '' and not regexp_full_match(tidy(x), '[+-]?[0-9]+([^0-9][0-9]{3})*([^0-9][0-9]*)?') then x
        when read_number(unmarked(x, decimal_mark, thousands_mark)) is null then x
        else unmarked(x, decimal_mark, thousands_mark)
    end;
-- A number times a factor, as text.
create or replace temporary macro scaled_text(x, factor) as
    coalesce((round(try_cast(x as double) * factor, 6))::varchar, x);
