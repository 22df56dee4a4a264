-- Whether the breathing stopped by itself where a take holds a stretch without a breath: 1 yes, 0 no, null nobody said.
alter table take add column breathing_stopped integer;
