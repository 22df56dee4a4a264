-- The few followed numbers of an examination beside it, so that a trend over a year need not read every examination whole. Null: made by an older Lungwort.
alter table examination add column measures_json text;
