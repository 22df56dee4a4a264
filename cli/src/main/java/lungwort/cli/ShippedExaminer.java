package lungwort.cli;

import java.nio.file.Path;
import java.util.function.Function;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.diary.Diary;
import lungwort.examine.Examination;
import lungwort.examine.Examiner;
import lungwort.practice.PracticeScenes;
import lungwort.round.RoundService;
import org.jspecify.annotations.Nullable;

/** Examines with the model that comes with Lungwort; the model is read when the first recording comes, so that commands without one start at once. */
public final class ShippedExaminer {
    private ShippedExaminer() {}

    /** Examines a recording. */
    public static Examination examine(Recording recording) {
        return Holder.EXAMINER.examine(recording);
    }

    /** Reads the model and examines an invented chest twice, so that the first real recording need not wait for it. */
    public static void warmUp() {
        Recording practice = PracticeScenes.of("both").scene().synthesise().recording();
        for (int i = 0; i < 2; i++) {
            Examination unused = examine(practice);
        }
    }

    /** Examines with a model file, or with the shipped model where none is named. */
    static Function<Recording, Examination> with(@Nullable Path model) {
        return model == null ? ShippedExaminer::examine : new Examiner(GivenModel.read(model))::examine;
    }

    /** Rounds of a diary, examined with the shipped model. */
    public static RoundService rounds(Diary diary) {
        return new RoundService(diary, RecordingReader::read, ShippedExaminer::examine);
    }

    private static final class Holder {
        static final Examiner EXAMINER = new Examiner(ShippedModel.model());
    }
}
