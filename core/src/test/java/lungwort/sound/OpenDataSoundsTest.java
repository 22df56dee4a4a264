package lungwort.sound;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import lungwort.audio.RecordingReader;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.Database;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.EventLabel;
import lungwort.dataset.OpenData;
import lungwort.score.Roc;
import lungwort.signal.ChestViews;
import org.junit.jupiter.api.Test;

/**
 * The measured sounds alone, nothing learnt, at SPRSound's annotated events (children, one stethoscope). The finders' windows and thresholds were chosen on half of the training set's
 * patients; these are of the other half: every third recording with an extra sound and every tenth normal one.
 */
class OpenDataSoundsTest {
    private static final double WEAKEST = 0.25;

    private record Event(EventLabel label, double strongestTone, double cracklesPerSecond, boolean named) {}

    @Test
    void tonesAndCracklesTellAnnotatedEventsFromNormalOnes() {
        List<Event> events = measured(OpenData.open(DatabaseKind.SPRSOUND));
        double wheeze = auc(events, EventLabel.WHEEZE, Event::strongestTone);
        double rhonchus = auc(events, EventLabel.RHONCHUS, Event::strongestTone);
        double fine = auc(events, EventLabel.FINE_CRACKLE, Event::cracklesPerSecond);
        System.out.printf(
                "%d events; strongest tone: wheeze %.3f, rhonchus %.3f; crackles a second: fine %.3f (areas under the ROC against normal events)%n",
                events.size(), wheeze, rhonchus, fine);
        System.out.printf(
                "named continuous sounds lie in %.2f of wheezes, %.2f of normal events%n",
                share(events, EventLabel.WHEEZE), share(events, EventLabel.NORMAL));
        assertThat(wheeze).isGreaterThan(0.85);
        assertThat(rhonchus).isGreaterThan(0.85);
        assertThat(fine).isGreaterThan(0.85);
        assertThat(share(events, EventLabel.NORMAL)).isLessThan(0.12);
    }

    private static List<Event> measured(Database database) {
        List<Event> events = new ArrayList<>();
        int at = 0;
        for (AnnotatedRecording recording : database.recordings()) {
            boolean held = Math.floorMod(recording.patient().hashCode(), 2) == 1 && recording.hasAudio();
            if (held && at++ % (recording.label().adventitious() ? 3 : 10) == 0) {
                ChestViews views = ChestViews.of(RecordingReader.read(recording.audio()));
                List<Tone> tones = ToneFinder.find(views, WEAKEST);
                List<ContinuousSound> sounds = ContinuousSoundFinder.find(views);
                List<Crackle> crackles = CrackleFinder.find(views);
                recording.events().forEach(event -> events.add(measured(event, tones, sounds, crackles)));
            }
        }
        return events;
    }

    private static Event measured(
            AnnotatedEvent event, List<Tone> tones, List<ContinuousSound> sounds, List<Crackle> crackles) {
        double strongest = tones.stream()
                .filter(tone -> inside(event, tone.startSeconds(), tone.endSeconds()))
                .mapToDouble(Tone::strength)
                .max()
                .orElse(0);
        long count = crackles.stream()
                .filter(crackle -> inside(event, crackle.startSeconds(), crackle.endSeconds()))
                .count();
        boolean named = sounds.stream().anyMatch(sound -> inside(event, sound.startSeconds(), sound.endSeconds()));
        return new Event(event.label(), strongest, count / event.durationSeconds(), named);
    }

    private static boolean inside(AnnotatedEvent event, double startSeconds, double endSeconds) {
        double middle = (startSeconds + endSeconds) / 2;
        return middle >= event.startSeconds() && middle < event.endSeconds();
    }

    private static double auc(List<Event> events, EventLabel label, ToDoubleFunction<Event> value) {
        List<Event> both = events.stream()
                .filter(event -> event.label() == label || event.label() == EventLabel.NORMAL)
                .toList();
        boolean[] positive = new boolean[both.size()];
        for (int i = 0; i < positive.length; i++) {
            positive[i] = both.get(i).label() == label;
        }
        return Roc.auc(both.stream().mapToDouble(value).toArray(), positive);
    }

    private static double share(List<Event> events, EventLabel label) {
        return events.stream()
                .filter(event -> event.label() == label)
                .mapToDouble(event -> event.named() ? 1 : 0)
                .average()
                .orElse(Double.NaN);
    }
}
