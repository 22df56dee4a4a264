package lungwort.cli;

import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.diary.Diary;
import lungwort.examine.Examination;
import lungwort.examine.Examiner;
import lungwort.round.RoundService;

/** Examines with the model that comes with Lungwort; the model is read when the first recording comes, so that commands without one start at once. */
public final class ShippedExaminer {
    private ShippedExaminer() {}

    /** Examines a recording. */
    public static Examination examine(Recording recording) {
        return Holder.EXAMINER.examine(recording);
    }

    /** Rounds of a diary, examined with the shipped model. */
    public static RoundService rounds(Diary diary) {
        return new RoundService(diary, RecordingReader::read, ShippedExaminer::examine);
    }

    private static final class Holder {
        static final Examiner EXAMINER = new Examiner(ShippedModel.model());
    }
}
