-- The closed lists of words in the record layout, one enumeration each.
--
-- The words stand in byte order, so that sorting by the enumeration is sorting by the text.
-- Source: record layout.
create type reason_word as enum (
    'calibration_only', 'camera_removed', 'collision_repair', 'customer_complaint', 'other', 'recheck',
    'sensor_replaced', 'software_update', 'suspension_work', 'warning_light', 'wheel_alignment',
    'windshield_replacement'
);
create type pane_word as enum ('front_door', 'quarter', 'rear_door', 'rear_window', 'roof', 'windshield');
create type glass_source_word as enum ('aftermarket', 'oee', 'oem', 'original', 'recycled', 'unknown');
create type bracket_word as enum ('integral', 'new_bonded', 'transferred');
create type system_word as enum (
    'front_camera', 'front_corner_radar', 'front_radar', 'infrared_camera', 'lidar', 'other', 'rear_camera',
    'rear_corner_radar', 'steering_angle', 'surround_camera', 'ultrasonic'
);
create type position_word as enum ('center', 'front', 'left', 'rear', 'right');
create type method_word as enum ('dynamic', 'static', 'static_dynamic');
create type attempt_outcome_word as enum ('aborted', 'completed', 'failed');
create type provider_word as enum ('in_house', 'mobile', 'sublet');
create type quantity_word as enum (
    'ambient_light', 'battery_voltage', 'extra_load', 'floor_slope', 'fuel_level', 'pitch',
    'ride_height_lf', 'ride_height_lr', 'ride_height_rf', 'ride_height_rr', 'roll',
    'target_distance', 'target_height', 'target_level', 'target_offset', 'thrust_angle',
    'tire_pressure_lf', 'tire_pressure_lr', 'tire_pressure_rf', 'tire_pressure_rr', 'yaw'
);
create type unit_word as enum (
    'V', 'bar', 'cm', 'deg', 'fc', 'ft', 'in', 'kPa', 'kg', 'lb', 'lux', 'm', 'mm', 'mm_per_m', 'mrad', 'pct', 'psi'
);
create type stage_word as enum ('interim', 'post', 'pre');
create type fault_status_word as enum ('active', 'pending', 'stored', 'unknown');
create type test_outcome_word as enum ('failed', 'passed');
create type document_word as enum (
    'alignment_record', 'calibration_report', 'certificate', 'invoice', 'other', 'photo', 'post_scan_report',
    'pre_scan_report', 'procedure', 'road_test_record'
);
create type subject_word as enum (
    'bay', 'equipment', 'shop', 'software_version', 'supplier', 'target', 'technician'
);
