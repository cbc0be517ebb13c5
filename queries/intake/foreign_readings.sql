-- How the text of another program's file is brought into the form of the record layout: macros for mapping profiles.
--
-- What cannot be brought into that form stays as it is, and the layout's own readings then set its row aside with the
-- value as the shop wrote it. A list of one value, taken apart again, gives a text a name: the engine would else
-- write the whole expression out at every place where it is used.

-- A year of two digits lies between 1970 and 2069.
create or replace temporary macro full_year(digits) as
    case when length(digits) = 2 then (case when digits >= '70' then '19' else '20' end) || digits else digits end;

-- An English month's number by its first three letters; null where there is none.
create or replace temporary macro month_number(word) as
    case
        when length(word) >= 3 and (position(lower(word[:3]) in 'jan feb mar apr may jun jul aug sep oct nov dec') - 1) % 4 = 0
        then (((position(lower(word[:3]) in 'jan feb mar apr may jun jul aug sep oct nov dec') - 1) // 4) + 1)::varchar
    end;

-- Year, month and day as 2026-03-09; null where one of them is none.
create or replace temporary macro day_of(y, m, d) as
    case when length(y) in (2, 4) and length(m) in (1, 2) and length(d) in (1, 2)
        then full_year(y) || '-' || lpad(m, 2, '0') || '-' || lpad(d, 2, '0') end;

-- A clock of 12 or 24 hours as 14:05 or 14:05:30, with a space before it; null where it is none.
create or replace temporary macro clock_of(clock) as
    case
        when clock.h = '' then null
        when clock.half = '' then ' ' || lpad(clock.h, 2, '0') || ':' || clock.rest
        when clock.h::integer not between 1 and 23 then null
        else ' ' || lpad((clock.h::integer + case
                when lower(clock.half) = 'p' and clock.h::integer < 12 then 12
                when lower(clock.half) = 'a' and clock.h::integer = 12 then -12
                else 0
            end)::varchar, 2, '0') || ':' || clock.rest
    end;
create or replace temporary macro clock_text(x) as
    case
        when x = '' then ''
        else list_transform([regexp_extract(x,
            '^([0-9]{1,2}):([0-9]{2}(?::[0-9]{2}(?:[.][0-9]+)?)?) ?(?:([AaPp])[.]?[Mm][.]?)?$', ['h', 'rest', 'half'])],
            c -> clock_of(c))[1]
    end;

-- The parts of a written day and the clock behind it: 3/9/2026 2:05 PM, 9.3.26, 2026-03-09T14:05.
create or replace temporary macro day_parts(x) as
    regexp_extract(x, '^([0-9]{1,4})[-/.] ?([0-9]{1,2})[-/.] ?([0-9]{1,4})(?:,?[ T]+(.*))?$', ['one', 'two', 'three', 'clock']);
create or replace temporary macro ordered_day(parts, day_order) as
    case
        when length(parts.one) = 4 then day_of(parts.one, parts.two, parts.three)
        when day_order = 'mdy' then day_of(parts.three, parts.one, parts.two)
        when day_order = 'dmy' then day_of(parts.three, parts.two, parts.one)
        when day_order = 'ymd' then day_of(parts.one, parts.two, parts.three)
    end;

-- The same with the month as a word: 9 Mar 2026 2:05 PM, 09-Mar-26, March 9, 2026.
create or replace temporary macro day_first_parts(x) as
    regexp_extract(x, '^([0-9]{1,2})[-. ]+([A-Za-z]{3,9})[-., ]+([0-9]{2}|[0-9]{4})(?:,?[ T]+(.*))?$', ['d', 'm', 'y', 'clock']);
create or replace temporary macro month_first_parts(x) as
    regexp_extract(x, '^([A-Za-z]{3,9})[. ]+([0-9]{1,2}),? +([0-9]{4})(?:,?[ T]+(.*))?$', ['m', 'd', 'y', 'clock']);
create or replace temporary macro worded_day(parts) as day_of(parts.y, month_number(parts.m), parts.d) || clock_text(parts.clock);

-- A spreadsheet's serial in its system, 1900 or 1904; null where it is none. In the 1900 system the days below 61 lie one
-- later, for it has a 29 February 1900, which is no day here.
-- Source: ECMA-376 part 1, 18.17.4.1.
create or replace temporary macro serial_origin(serial, serials) as
    case
        when serials = '1904' then timestamp '1904-01-01 00:00:00'
        when serial >= 61 then timestamp '1899-12-30 00:00:00'
        when serial >= 1 and serial < 60 then timestamp '1899-12-31 00:00:00'
    end;
create or replace temporary macro serial_text(serial, serials) as
    case
        when serial > 2958465.99999999 - case when serials = '1904' then 1462 else 0 end then null
        when serial = floor(serial) then (serial_origin(serial, serials)::date + serial::integer)::varchar
        else (serial_origin(serial, serials) + to_seconds(round(serial * 86400)::bigint))::varchar
    end;

-- A moment in the form of the record layout; null where it is none.
create or replace temporary macro known_moment(x, day_order, serials) as
    case
        when regexp_full_match(x, '[0-9]{1,7}([.][0-9]+)?') then
            case when serials <> '' then list_transform([x::double], s -> serial_text(s, serials))[1] end
        when regexp_matches(x, '[A-Za-z]{3}') then coalesce(
            list_transform([day_first_parts(x)], d -> worded_day(d))[1],
            list_transform([month_first_parts(x)], d -> worded_day(d))[1])
        else list_transform([day_parts(x)], d -> ordered_day(d, day_order) || clock_text(d.clock))[1]
    end;
create or replace temporary macro moment_text(x, day_order, serials) as
    list_transform([tidy(x)], t -> list_transform([known_moment(t, day_order, serials)], m ->
        case when read_moment(m) is not null then m else t end)[1])[1];

-- A number in the form of the record layout, from one with the decimal and thousands marks named. A point where the
-- comma is the decimal mark, and thousands that are not in threes, are no number: it might be either.
create or replace temporary macro number_pattern(decimal_mark, thousands_mark) as
    '[+-]?([0-9]+' || case when thousands_mark = '' then '' else '|[0-9]{1,3}([' || thousands_mark || '][0-9]{3})+' end
    || ')?([' || decimal_mark || '][0-9]*)?([eE][+-]?[0-9]+)?';
create or replace temporary macro number_text(x, decimal_mark, thousands_mark) as
    list_transform([translate(tidy(x), chr(160) || chr(8239), '  ')], t ->
        case
            when t = '' then null
            when regexp_full_match(t, number_pattern(decimal_mark, translate(thousands_mark, chr(160) || chr(8239), '  ')))
            then replace(replace(t, translate(thousands_mark, chr(160) || chr(8239), '  '), ''), decimal_mark, '.')
            when read_number(t) is not null then t || ' (decimal mark ' || decimal_mark || ')'
            else t
        end)[1];
-- A number times a factor, as text.
create or replace temporary macro scaled_text(x, factor) as
    list_transform([x], t -> coalesce(round(read_number(t) * factor, 6)::varchar, t))[1];
