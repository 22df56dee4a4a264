package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import lungwort.feature.MelImage;
import lungwort.feature.TimeSpan;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;
import org.junit.jupiter.api.Test;

/** Against numbers worked out by hand; which facts there are is the tool's own choice (common practice). */
class EventEdgeFactsTest {
    /** Two seconds. */
    private static final int FRAMES = 100;

    /** The net's logit is the number of the frame for a continuous sound, less 1000 for a discontinuous one. */
    private static float[][] frames() {
        float[][] frames = new float[2][FRAMES];
        for (int f = 0; f < FRAMES; f++) {
            frames[0][f] = f;
            frames[1][f] = f - 1000;
        }
        return frames;
    }

    /** Row r is r from 1 s on, and 0 before. */
    private static float[][] image() {
        float[][] image = new float[MelImage.ROWS][FRAMES];
        for (int row = 0; row < image.length; row++) {
            Arrays.fill(image[row], 50, FRAMES, row);
        }
        return image;
    }

    private static final List<MeasuredSound> SOUNDS = List.of(
            new ContinuousSound(SoundKind.WHEEZE, 0.3, 0.55, List.of(), 400, 0, false, 0.9, 18),
            new Crackle(SoundKind.FINE_CRACKLE, 0.79, 0.81, 1, 8, 2, 15),
            new ContinuousSound(SoundKind.RHONCHUS, 0.9, 1.25, List.of(), 150, 0, false, 0.9, 18),
            new Crackle(SoundKind.COARSE_CRACKLE, 1.39, 1.41, 2, 11, 3, 20));

    private static double fact(EventEdgeFacts facts, boolean continuous, double start, double end, String name) {
        int at = EventEdgeFacts.NAMES.indexOf(name);
        assertThat(at).as(name).isNotNegative();
        return facts.of(continuous, new TimeSpan(start, end))[at];
    }

    private static EventEdgeFacts facts() {
        return new EventEdgeFacts(frames(), image(), SOUNDS);
    }

    @Test
    void theNetIsAskedAboutEitherEdgeForItsOwnKind() {
        assertThat(fact(facts(), true, 0.8, 1.2, "start.net.-32")).isEqualTo(8);
        assertThat(fact(facts(), true, 0.8, 1.2, "start.net.0")).isEqualTo(40);
        assertThat(fact(facts(), true, 0.8, 1.2, "end.net.4")).isEqualTo(64);
        assertThat(fact(facts(), false, 0.8, 1.2, "end.net.4")).isEqualTo(-936);
    }

    @Test
    void beyondTheRecordingItsFirstAndLastFrameStand() {
        assertThat(fact(facts(), true, 0.1, 1.9, "start.net.-32")).isZero();
        assertThat(fact(facts(), true, 0.1, 1.9, "end.net.32")).isEqualTo(99);
        assertThat(fact(facts(), true, 0, 2, "start.level1.-24")).isZero();
        // No frame lies there.
        assertThat(fact(facts(), true, 0, 2, "end.level1.0")).isZero();
    }

    /** Rows 0 to 7 have a mean of 3.5, rows 56 to 63 one of 59.5. */
    @Test
    void levelsAreMeansOfEightRowsAndFrames() {
        assertThat(EventEdgeFacts.NAMES).contains("start.level8.16").doesNotContain("start.level9.16");
        assertThat(fact(facts(), true, 1, 2, "start.level1.-8")).isZero();
        assertThat(fact(facts(), true, 1, 2, "start.level1.0")).isEqualTo(3.5);
        assertThat(fact(facts(), true, 1, 2, "start.level8.0")).isEqualTo(59.5);
        // Frames 46 to 53: half of them are louder.
        assertThat(fact(facts(), true, 0.92, 2, "start.level8.0")).isEqualTo(29.75);
    }

    @Test
    void tonesCracklesAndTheRecordingsEndsAreTimesFromTheEdge() {
        String[] names = {"toneStart", "toneEnd", "crackle", "crackleBefore", "crackleAfter", "sinceStart", "untilEnd"};
        double[] start = {0.1, -0.25, 0, 0, 0.6, 0.8, 1.2};
        double[] end = {-0.3, 0.05, 0.2, -0.4, 0.2, 1.2, 0.8};
        for (int i = 0; i < names.length; i++) {
            assertThat(fact(facts(), true, 0.8, 1.2, "start." + names[i]))
                    .as(names[i])
                    .isEqualTo(start[i], within(1e-6));
            assertThat(fact(facts(), true, 0.8, 1.2, "end." + names[i]))
                    .as(names[i])
                    .isEqualTo(end[i], within(1e-6));
        }
    }

    @Test
    void whereNoSoundWasMeasuredItIsFarAway() {
        EventEdgeFacts none = new EventEdgeFacts(frames(), image(), List.of());
        assertThat(fact(none, true, 0.8, 1.2, "start.toneStart")).isEqualTo(9);
        assertThat(fact(none, true, 0.8, 1.2, "start.crackleBefore")).isEqualTo(-9);
        assertThat(fact(none, true, 0.8, 1.2, "start.crackleAfter")).isEqualTo(9);
        assertThat(none.of(true, new TimeSpan(0.8, 1.2))).hasSameSizeAs(EventEdgeFacts.NAMES);
        assertThat(none.seconds()).isEqualTo(2, within(1e-12));
    }

    @Test
    void namesAreSingle() {
        assertThat(EventModel.names(true)).doesNotHaveDuplicates().hasSize(EventFacts.NAMES.size() + 144);
        assertThat(EventModel.names(false)).isEqualTo(EventFacts.NAMES);
    }

    /** A model that was written in one country is read in another, whose digits are others. */
    @Test
    void namesAreTheSameWhateverTheDigitsOfTheLocale() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            assertThat("%d".formatted(7)).as("these digits are others").isNotEqualTo("7");
            assertThat(EventEdgeFacts.names()).isEqualTo(EventEdgeFacts.NAMES).contains("start.net.0");
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void withoutTheRecordingsImageThereAreNone() {
        assertThatThrownBy(() -> new EventEdgeFacts(frames(), new float[0][], List.of()))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new EventEdgeFacts(frames(), new float[MelImage.ROWS][FRAMES - 1], List.of()))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
