package lungwort.examine;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.breath.BandLevelMeter;
import lungwort.breath.BandLevels;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.OpenData;
import lungwort.quality.QualityCheck;
import org.junit.jupiter.api.Test;

/** How often a pause is asked about on public recordings (SPRSound: Zhang et al. 2022; ICBHI 2017: Rocha et al. 2019), against the breaths that listeners marked there. */
class PausesOnOpenDataTest {
    @Test
    void seldomOnSprsoundAndNeverOverAMarkedBreath() {
        Told told = told(DatabaseKind.SPRSOUND, "train");

        System.out.println("SPRSound, pauses: " + told.words());
        assertThat(told.contradicted).isEmpty();
        assertThat(told.files.size()).isLessThanOrEqualTo(told.recordings / 100);
    }

    @Test
    void neverOnIcbhiWhereEveryBreathIsMarked() {
        Told told = told(DatabaseKind.ICBHI, "all");

        System.out.println("ICBHI, pauses: " + told.words());
        assertThat(told.contradicted).isEmpty();
    }

    private static final class Told {
        private int recordings;
        private final List<String> files = new ArrayList<>();
        private final List<String> contradicted = new ArrayList<>();

        String words() {
            return "told of in %d of %d recordings %s; a marked breath lies inside in %d"
                    .formatted(files.size(), recordings, files, contradicted.size());
        }
    }

    private static Told told(DatabaseKind kind, String split) {
        Told told = new Told();
        for (AnnotatedRecording truth : OpenData.open(kind).withAudio(split)) {
            Recording recording = RecordingReader.read(truth.audio());
            BandLevels levels = BandLevelMeter.of(recording);
            told.recordings++;
            // Quality takes long, so it is asked only where there is something to hide.
            if (levels.frames() == 0 || BreathingPauses.in(recording, levels).isEmpty()) {
                continue;
            }
            for (BreathingPause pause : BreathingPauses.in(recording, levels, QualityCheck.check(recording))) {
                String line = "%s %.1f s".formatted(recording.origin(), pause.seconds());
                told.files.add(line);
                if (truth.events().stream().anyMatch(event -> inside(event, pause))) {
                    told.contradicted.add(line);
                }
            }
        }
        return told;
    }

    private static boolean inside(AnnotatedEvent event, BreathingPause pause) {
        return event.startSeconds() > pause.startSeconds() && event.endSeconds() < pause.endSeconds();
    }
}
