package lungwort.cli;

import lungwort.diary.Diary;
import lungwort.round.RoundService;

/** Makes the round service of a diary; tests put in one with an invented examiner. */
interface RoundServices {
    /** The service of an open diary. */
    RoundService of(Diary diary);
}
