-- How the text of a file becomes a value: one macro a type of the record layout, null where it cannot be read.
--
-- The macros live as long as the connection. Each tries the plain form first, for nearly all rows have it; the forms
-- that need work are looked at only where that failed.
-- Source: record layout, Values. Unit factors: NIST SP 811 (2008), appendix B.8.

-- Text without white space, zero-width space or byte-order mark around it; what is left empty is missing. Text that begins and ends with a visible
-- ASCII character needs no trimming, which is dear.
create or replace temporary macro tidy(x) as trim(x, chr(9) || chr(10) || chr(13) || ' ' || chr(160) || chr(8203) || chr(65279));
create or replace temporary macro read_text(x) as
    case
        when x is null then null
        when x[1] between '!' and '~' and x[-1] between '!' and '~' then x
        else nullif(tidy(x), '')
    end;

-- A number: decimal point, optional exponent. The engine would also take NaN, infinities and 1_000.
create or replace temporary macro plain_number(x) as
    case when isfinite(try_cast(x as double)) and not contains(x, '_') then try_cast(x as double) end;
create or replace temporary macro read_number(x) as
    coalesce(plain_number(x), case when x is not null then plain_number(tidy(x)) end);

-- A whole number. The engine would round 1.5 and take 0x1F; 2018.0, as spreadsheets write it, is whole.
create or replace temporary macro read_integer(x) as
    case
        when regexp_full_match(x, '[0-9]{1,9}') then try_cast(x as integer)
        when read_number(x) = floor(read_number(x)) then try_cast(read_number(x) as integer)
    end;

-- A word in the form in which the lists have it.
create or replace temporary macro as_word(x) as lower(translate(tidy(x), ' -', '__'));

-- A moment of the wall clock as written, an offset left aside; a date alone is the day's first moment.
create or replace temporary macro wall_clock(x) as
    try_cast(replace(replace(upper(
        regexp_extract(x, '([0-9-]{10}([ Tt][0-9]{2}:[0-9]{2}(:[0-9]{2}([.,][0-9]+)?)?)?)', 1)), 'T', ' '), ',', '.')
        as timestamp);
create or replace temporary macro read_moment(x) as
    case
        when regexp_full_match(x, '[0-9]{4}-[0-9]{2}-[0-9]{2}( [0-9]{2}:[0-9]{2}(:[0-9]{2})?)?')
        then try_cast(x as timestamp)
        when regexp_full_match(tidy(x), '[0-9]{4}-[0-9]{2}-[0-9]{2}([ Tt][0-9]{2}:[0-9]{2}(:[0-9]{2}([.,][0-9]+)?)?'
            || ' ?([Zz]|[+-]([01][0-9]|2[0-3])(:?[0-5][0-9])?)?)?')
        then wall_clock(tidy(x))
    end;

-- Whether a moment that can be read is a date alone: every other form has a colon.
create or replace temporary macro is_day(x) as
    coalesce(length(x) = 10 or (length(x) > 10 and not contains(x, ':') and length(tidy(x)) = 10), false);
-- The day's last second, for what lasts until the end of its day.
create or replace temporary macro read_last_moment(x) as
    case when is_day(x) then read_moment(x) + interval '23:59:59' else read_moment(x) end;
-- An end that is a date alone says nothing about a duration.
create or replace temporary macro read_end(x) as case when not is_day(x) then read_moment(x) end;

-- The seconds by which an offset is ahead of UTC; null where there is none.
create or replace temporary macro offset_seconds(x) as
    case
        when regexp_full_match(tidy(x), '[0-9-]{10}[ Tt].*[Zz]') then 0
        when regexp_full_match(tidy(x), '[0-9-]{10}[ Tt].*[+-][0-9]{2}(:?[0-9]{2})?') then
            (case when contains(tidy(x)[11:], '-') then -1 else 1 end)
            * (3600 * regexp_extract(tidy(x)[11:], '[+-]([0-9]{2})', 1)::integer
               + 60 * coalesce(nullif(regexp_extract(tidy(x)[11:], '[+-][0-9]{2}:?([0-9]{2})', 1), ''), '0')::integer)
    end;

-- A vehicle identification number, upper-cased, without spaces and hyphens; nothing left is missing.
create or replace temporary macro read_vin(x) as
    case
        when regexp_full_match(x, '[A-HJ-NPR-Z0-9]{17}') then x
        else nullif(translate(upper(tidy(x)), ' -', ''), '')
    end;

-- A trouble code, with a hyphen before its failure-type byte where it has the standard form, else as read.
create or replace temporary macro read_code(x) as
    case
        when regexp_full_match(x, '[PCBU][0-3][0-9A-F]{3}(-[0-9A-F]{2})?') then x
        when regexp_full_match(upper(tidy(x)), '[PCBU][0-3][0-9A-F]{3}([-:]?[0-9A-F]{2})?')
        then regexp_replace(upper(tidy(x)), '^(.{5})[-:]?(.{2})', '\1-\2')
        else read_text(x)
    end;

-- A SHA-256 sum in hexadecimal digits.
create or replace temporary macro read_sha256(x) as
    case
        when regexp_full_match(x, '[0-9a-f]{64}') then x
        when regexp_full_match(tidy(x), '[0-9a-fA-F]{64}') then lower(tidy(x))
    end;

-- The unit in which a quantity is stored. The words lie in byte order, so that a family of them is a range; a list
-- of words would make the engine join.
create or replace temporary macro stored_unit(quantity) as
    case
        when quantity between 'ride_height_lf'::quantity_word and 'ride_height_rr'::quantity_word then 'mm'::unit_word
        when quantity between 'tire_pressure_lf'::quantity_word and 'tire_pressure_rr'::quantity_word
        then 'kPa'::unit_word
        when quantity between 'target_distance'::quantity_word and 'target_offset'::quantity_word
        then case when quantity = 'target_level'::quantity_word then 'mm_per_m'::unit_word else 'mm'::unit_word end
        else
            case quantity
                when 'floor_slope'::quantity_word then 'mm_per_m'::unit_word
                when 'thrust_angle'::quantity_word then 'deg'::unit_word
                when 'pitch'::quantity_word then 'deg'::unit_word
                when 'yaw'::quantity_word then 'deg'::unit_word
                when 'roll'::quantity_word then 'deg'::unit_word
                when 'ambient_light'::quantity_word then 'lux'::unit_word
                when 'battery_voltage'::quantity_word then 'V'::unit_word
                when 'fuel_level'::quantity_word then 'pct'::unit_word
                when 'extra_load'::quantity_word then 'kg'::unit_word
            end
    end;

-- A value in the stored unit; null where the unit does not fit. Inch, foot and pound are exact by definition; psi and
-- footcandle follow from them (pound-force over square inch, 1 over square foot).
create or replace temporary macro converted(value, unit, stored) as
    case
        when stored = 'mm'::unit_word then value * case unit when 'cm'::unit_word then 10 when 'm'::unit_word then 1000
            when 'in'::unit_word then 25.4::double when 'ft'::unit_word then 304.8::double end
        when stored = 'kPa'::unit_word then value * case unit when 'bar'::unit_word then 100::double
            when 'psi'::unit_word then 6.894757293168362::double end
        when stored = 'mm_per_m'::unit_word then
            case unit when 'deg'::unit_word then 1000 * tan(radians(value)) when 'pct'::unit_word then 10 * value end
        when stored = 'deg'::unit_word and unit = 'mrad'::unit_word then degrees(value / 1000)
        when stored = 'lux'::unit_word and unit = 'fc'::unit_word then value * 10.763910416709722::double
        when stored = 'kg'::unit_word and unit = 'lb'::unit_word then value * 0.45359237::double
    end;
create or replace temporary macro in_stored_unit(value, unit, stored) as
    case
        when unit = stored then value
        when isfinite(converted(value, unit, stored)) then converted(value, unit, stored)
    end;

-- What is wrong with one value of a row.
create or replace temporary macro fault(column_name, value, reason, remedy) as
    {'column_name': column_name, 'value': value, 'reason': reason, 'remedy': remedy};
-- The faults of a row after the first, for its reason to go on with.
create or replace temporary macro further(faults) as
    coalesce(array_to_string(list_transform(faults[2:], f ->
        '; also ' || f.column_name || ' ' || coalesce('"' || f.value || '" ', '') || f.reason), ''), '');
