-- How the text of another program's file is brought into the form of the record layout: macros for mapping profiles.
--
-- What cannot be brought into that form stays as it is, and the layout's own readings then set its row aside with the
-- value as the shop wrote it. A list of one value, taken apart again, gives a text a name: the engine would else
-- write the whole expression out at every place where it is used.

-- A year of two digits lies between 1970 and 2069.
create or replace temporary macro full_year(digits) as
    case when length(digits) = 2 then (case when digits >= '70' then '19' else '20' end) || digits else digits end;

-- A month's number by its first letters in English, Spanish, French or German, accents aside; null where there is none.
-- Source: Unicode CLDR, month names, wide and abbreviated, of en, es, fr and de.
create or replace temporary macro month_number(word) as
    list_transform([lower(strip_accents(word))], w -> case
        when w[:4] = 'juin' then '6'
        when w[:4] = 'juil' then '7'
        else case w[:3]
            when 'jan' then '1' when 'ene' then '1' when 'feb' then '2' when 'fev' then '2' when 'mar' then '3' when 'mrz' then '3'
            when 'apr' then '4' when 'abr' then '4' when 'avr' then '4' when 'may' then '5' when 'mai' then '5' when 'jun' then '6'
            when 'jul' then '7' when 'aug' then '8' when 'ago' then '8' when 'aou' then '8' when 'sep' then '9' when 'oct' then '10'
            when 'okt' then '10' when 'nov' then '11' when 'dec' then '12' when 'dic' then '12' when 'dez' then '12'
        end
    end)[1];

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
create or replace temporary macro colon_clock(x) as
    list_transform([regexp_extract(x,
        '^([0-9]{1,2}):([0-9]{2}(?::[0-9]{2}(?:[.][0-9]+)?)?) ?(?:([AaPp])[.]? ?[Mm][.]?)?$', ['h', 'rest', 'half'])],
        c -> clock_of(c))[1];
-- Other ways to write it: 14h05, 14.05 Uhr, 14 h, 2 pm.
create or replace temporary macro with_colon(x) as
    regexp_replace(regexp_replace(regexp_replace(x,
        '(?i) *(uhr|hrs?)[.]?$', ''),
        '^([0-9]{1,2}) ?[hH.]([0-9]{2})', '\1:\2'),
        '(?i)^([0-9]{1,2})(?: ?h| ?(([ap])[.]? ?m[.]?))$', '\1:00 \2');
create or replace temporary macro clock_text(x) as
    case when x = '' then '' else coalesce(colon_clock(x), colon_clock(rtrim(with_colon(x)))) end;

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

-- The same with the month as a word: 9 Mar 2026 2:05 PM, 09-Mar-26, March 9, 2026, lunes 9 de marzo de 2026. What stands
-- before and between these that is no month is left out.
create or replace temporary macro bare_words(x) as
    regexp_replace(regexp_replace(regexp_replace(x,
        '(?i)(^| )(de|del|le|den|der|am|the|of|at|um|a las|à) ', ' ', 'g'),
        '(?i)(^| )(de|del|le|den|der|am|the|of|at|um|a las|à) ', ' ', 'g'),
        '(?i)([0-9])(st|nd|rd|th|er|º|ª) ', '\1 ');
create or replace temporary macro without_weekday(x) as
    case
        when month_number(regexp_extract(x, '^(\pL+)', 1)) is null then regexp_replace(x, '^\pL{2,10}[.,]* +', '')
        when regexp_matches(x, '^\pL{2,10}[.,]* +[0-9]{1,2}[-. ]+\pL{3}') then regexp_replace(x, '^\pL{2,10}[.,]* +', '') -- mar. 3 mars
        else x
    end;
create or replace temporary macro day_first_parts(x) as
    regexp_extract(x, '^([0-9]{1,2})[-. ]+(\pL{3,10})[-., ]+([0-9]{2}|[0-9]{4})(?:,?[ T]+(.*))?$', ['d', 'm', 'y', 'clock']);
create or replace temporary macro month_first_parts(x) as
    regexp_extract(x, '^(\pL{3,10})[. ]+([0-9]{1,2}),? +([0-9]{4})(?:,?[ T]+(.*))?$', ['m', 'd', 'y', 'clock']);
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

-- Digits alone: a day as 20260309, with its time behind it, or seconds or milliseconds since 1970 in UTC.
create or replace temporary macro digits_moment(x) as
    case
        when regexp_full_match(x, '(19|20)[0-9]{6}') then x[:4] || '-' || x[5:6] || '-' || x[7:8]
        when regexp_full_match(x, '(19|20)[0-9]{6}[ T]?[0-9]{4}([0-9]{2})?') then x[:4] || '-' || x[5:6] || '-' || x[7:8]
            || list_transform([ltrim(x[9:], ' T')], c -> ' ' || c[:2] || ':' || c[3:4] || case when length(c) = 6 then ':' || c[5:6] else '' end)[1]
        when regexp_full_match(x, '1[0-9]{9}') then strftime(make_timestamp(x::bigint * 1000000), '%Y-%m-%dT%H:%M:%SZ')
        when regexp_full_match(x, '1[0-9]{12}') then strftime(make_timestamp((x::bigint // 1000) * 1000000), '%Y-%m-%dT%H:%M:%SZ')
    end;

-- A moment in the form of the record layout; null where it is none. A clock may stand before the day.
create or replace temporary macro day_before_clock(x) as
    regexp_replace(x, '^([0-9]{1,2}:[0-9]{2}(?::[0-9]{2})?(?: ?[AaPp][.]? ?[Mm][.]?)?),? +(.*)$', '\2 \1');
create or replace temporary macro known_moment(x, day_order, serials) as
    case
        when regexp_full_match(x, '[0-9]{1,7}([.][0-9]+)?') then
            case when serials <> '' then list_transform([x::double], s -> serial_text(s, serials))[1] end
        when regexp_full_match(x, '[0-9]{8}[0-9 T]*') then digits_moment(x)
        when regexp_matches(x, '^[0-9]{1,4}[-/.] ?[0-9]{1,2}[-/.]') then list_transform([day_parts(x)], d -> ordered_day(d, day_order) || clock_text(d.clock))[1]
        when regexp_matches(x, '^[0-9]{1,2}:') and length(x) > 11 then
            list_transform([day_parts(day_before_clock(x))], d -> ordered_day(d, day_order) || clock_text(d.clock))[1]
        when regexp_matches(x, '\pL{3}') then list_transform([without_weekday(trim(bare_words(x)))], w -> coalesce(
            list_transform([day_first_parts(w)], d -> worded_day(d))[1],
            list_transform([month_first_parts(w)], d -> worded_day(d))[1],
            list_transform([day_parts(w)], d -> ordered_day(d, day_order) || clock_text(d.clock))[1]))[1]
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
