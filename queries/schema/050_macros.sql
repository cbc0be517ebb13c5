-- Small formulas that several shapes share.

-- Whether a timestamp of a row was given as a date alone; date_only is the row's list of such columns.
create or replace macro on_date(date_only, column_name) as
    coalesce(contains(date_only::varchar, column_name::varchar), false);      -- no column's name is part of another's

-- A moment in words, by which a record is known that its source does not number.
create or replace macro moment_name(at, is_date) as case when is_date then at::date::varchar else at::varchar end;

-- An identifier without the zeros that a spreadsheet drops: those in front of a number, and those at the end behind a point.
create or replace macro without_zeros(x) as
    regexp_replace(regexp_replace(x, '(^|[^0-9.])0+([0-9])', '\1\2', 'g'), '(\.[0-9]*[1-9])0+$|\.0+$', '\1');

-- Whether a vehicle identification number is present and well formed: 17 letters and digits without I, O, Q.
-- Source: record layout; 49 CFR 565.15.
create or replace macro vin_form(vin) as
    case
        when vin is null then 'missing'
        when regexp_full_match(vin, '[A-HJ-NPR-Z0-9]{17}') then 'well_formed'
        else 'malformed'
    end;

-- The weighted sum over a well-formed VIN's characters, as the check digit needs it: a digit is worth itself, the letters
-- A to I, J to R and S to Z count from 1, 1 and 2 upwards.
-- Source: 49 CFR 565.15(c), tables III (value of a letter) and IV (weight of a position).
create or replace macro vin_sum(vin) as
    list_dot_product(
        list_transform(string_split(vin, ''), letter -> (ascii(letter) - case
            when letter <= '9' then ascii('0')
            when letter <= 'I' then ascii('A') - 1
            when letter <= 'R' then ascii('J') - 1
            else ascii('S') - 2
        end)::double),
        [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2]::double[]
    )::integer;

-- The character that belongs in position 9 of a well-formed VIN: the sum's remainder by 11, X for 10.
create or replace macro vin_check_digit(vin) as '0123456789X'[vin_sum(vin) % 11 + 1];

-- Whether two moments lie on one day and either is a date alone, so that neither comes first.
create or replace macro unordered(one, one_on_date, other, other_on_date) as
    coalesce((one_on_date or other_on_date) and one::date = other::date, false);

-- Whether a trouble code has the form of SAE J2012: letter, digit 0 to 3, three hexadecimal digits, and a failure-type
-- byte or none.
create or replace macro standard_code(code) as regexp_full_match(code, '[PCBU][0-3][0-9A-F]{3}(-[0-9A-F]{2})?');

-- Whether two trouble codes can be the same fault: equal five characters, and failure-type bytes that are equal or of
-- which one is missing; a code of another form only when it is equal whole.
create or replace macro same_code(one, other) as
    one = other
    or (standard_code(one) and standard_code(other) and one[:5] = other[:5]
        and (length(one) = 5 or length(other) = 5));

-- Whether a measured value is outside its tolerance: 'low', 'high' or null. The bounds are inside; values are compared
-- rounded to 1e-6 of the stored unit.
create or replace macro outside(value, spec_low, spec_high) as
    case
        when round(value, 6) < round(spec_low, 6) then 'low'
        when round(value, 6) > round(spec_high, 6) then 'high'
    end;

-- What a value outside its tolerance was meant for, if it was written in another unit: the value multiplied or divided by
-- the factor, where that is inside. Null where the tolerance does not tell: within one that holds 0, or reaches near it, any
-- small value would be inside once divided.
create or replace macro meant(value, factor, spec_low, spec_high) as
    case when (spec_low > 0 and spec_high > 0 or spec_low < 0 and spec_high < 0)
        and greatest(abs(spec_low), abs(spec_high)) < 8 * least(abs(spec_low), abs(spec_high))
    then list_filter([value * factor, value / factor], other -> outside(other, spec_low, spec_high) is null)[1] end;


-- A finding's identifier: 16 hexadecimal digits over its kind and the keys of the records that it is about, so that a
-- decision survives a re-import. The class is given only where the header of the kind says that it takes part: where one
-- job can hold several findings by class.
-- Source: definitions, last paragraph.
create or replace macro finding_id(
    kind, identifying_class, shop, job_no, system, position, attempt_no, subject,
    prior_shop, prior_job_no, prior_system, prior_position, prior_attempt_no
) as
    left(sha256(
        kind || chr(31) || coalesce(identifying_class, '') || chr(31)
        || shop || chr(31) || job_no || chr(31)
        || coalesce(system, '') || chr(31) || coalesce(position, '') || chr(31)
        || coalesce(attempt_no::varchar, '') || chr(31) || coalesce(subject, '') || chr(31)
        || coalesce(prior_shop, '') || chr(31) || coalesce(prior_job_no, '') || chr(31)
        || coalesce(prior_system, '') || chr(31) || coalesce(prior_position, '') || chr(31)
        || coalesce(prior_attempt_no::varchar, '')
    ), 16);
