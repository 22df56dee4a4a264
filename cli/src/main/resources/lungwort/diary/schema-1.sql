-- Times: *_at is milliseconds since 1970-01-01 UTC, *_offset the local offset from UTC in seconds, so that a day stays the day it was.
-- Columns named *_json hold one JSON document. Ids are random UUIDs, so that two diaries can be merged.

create table person (
    id text primary key not null,
    nickname text not null,
    birth_month text not null,
    conditions_json text not null,
    about text not null,
    limits_json text not null,
    changed_at integer not null
);

create unique index person_nickname on person (nickname collate nocase);

create table round (
    id text primary key not null,
    person_id text not null references person (id) on delete cascade,
    started_at integer not null,
    started_offset integer not null,
    finished_at integer,
    danger_signs_json text not null,
    vitals_json text not null,
    symptoms_json text not null,
    symptom_words text not null,
    medicines text not null,
    next_step_json text,
    changed_at integer not null
);

create index round_of_person on round (person_id, started_at);

create table take (
    id text primary key not null,
    round_id text not null references round (id) on delete cascade,
    site text not null,
    reason text not null,
    recorded_at integer not null,
    recorded_offset integer not null,
    recording_sha256 text not null,
    file_name text not null,
    breath_heard integer,
    known_to_clinician integer not null,
    changed_at integer not null
);

create index take_of_round on take (round_id, recorded_at);

create index take_of_recording on take (recording_sha256);

create table examination (
    id text primary key not null,
    take_id text not null references take (id) on delete cascade,
    examined_at integer not null,
    examined_offset integer not null,
    model text not null,
    lungwort_version text not null,
    examination_json text not null
);

create index examination_of_take on examination (take_id, examined_at);

create table note (
    id text primary key not null,
    person_id text not null references person (id) on delete cascade,
    round_id text references round (id) on delete cascade,
    written_at integer not null,
    written_offset integer not null,
    words text not null,
    changed_at integer not null
);

create index note_of_person on note (person_id, written_at);

-- What a row held before it was changed, so that a change or a merge of two diaries loses nothing.
create table earlier (
    id text primary key not null,
    person_id text not null references person (id) on delete cascade,
    table_name text not null,
    row_id text not null,
    replaced_at integer not null,
    row_json text not null
);

create index earlier_of_row on earlier (row_id, replaced_at);

create table setting (
    name text primary key not null,
    content text not null,
    changed_at integer not null
);
