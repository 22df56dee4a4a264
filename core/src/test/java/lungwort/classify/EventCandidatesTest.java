package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lungwort.feature.TimeSpan;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;
import org.junit.jupiter.api.Test;

/** Against stretches read off by hand; the levels and times are the tool's own choice (common practice). */
class EventCandidatesTest {
    private static final float[][] SILENT = {filled(100, -9), filled(100, -9)};

    private static float[] filled(int frames, float value) {
        float[] track = new float[frames];
        Arrays.fill(track, value);
        return track;
    }

    private static MeasuredSound tone(double start, double end) {
        return new ContinuousSound(SoundKind.WHEEZE, start, end, List.of(), 400, 0, false, 1, 15);
    }

    private static void assertSpans(List<TimeSpan> found, double[][] expected) {
        assertThat(found).hasSize(expected.length).zipSatisfy(List.of(expected), (span, times) -> {
            assertThat(span.startSeconds()).isEqualTo(times[0], within(1e-9));
            assertThat(span.endSeconds()).isEqualTo(times[1], within(1e-9));
        });
    }

    /** Frames of 20 ms. Over each level lie other frames; what lies on a level is not over it; a run may last to the end. */
    @Test
    void aRunOfFramesOverEachLevelIsOne() {
        float[][] frames = {
            {-4, -2.5f, -1.5f, -0.5f, 0.5f, 2, -0.5f, -4, -1.5f, -3}, {-9, -9, -9, -9, -9, -9, -9, -9, -9, -1}
        };
        assertSpans(EventCandidates.of(frames, List.of()), new double[][] {
            {0.02, 0.14}, // over -3
            {0.04, 0.14}, // over -2
            {0.06, 0.14}, // over -1
            {0.08, 0.12}, // over 0
            {0.10, 0.12}, // over 1
            {0.16, 0.18}, // over -3 and over -2
            {0.18, 0.20} // the other kind, over -3 and over -2; on -1
        });
    }

    /** Both kinds' runs are candidates for either, and a stretch that both give is one. */
    @Test
    void whatBothKindsGiveIsOneCandidate() {
        float[] track = filled(50, -9);
        Arrays.fill(track, 10, 20, 5);
        assertSpans(EventCandidates.of(new float[][] {track, track}, List.of()), new double[][] {{0.2, 0.4}});
        assertThat(EventCandidates.of(SILENT, List.of())).isEmpty();
    }

    /** 80 ms on either side, never before the recording's start; crackles give none. */
    @Test
    void aToneIsOneWithItsEdges() {
        List<MeasuredSound> sounds =
                List.of(tone(0.05, 0.3), new Crackle(SoundKind.FINE_CRACKLE, 0.9, 0.91, 0.7, 5, 1, 15), tone(1.5, 1.7));
        assertSpans(EventCandidates.of(SILENT, sounds), new double[][] {{0, 0.38}, {1.42, 1.78}});
    }

    /** 90 ms apart they are one tone, 110 ms apart two; one within another is of it, and makes it no shorter. */
    @Test
    void tonesThatNearlyTouchAreOne() {
        List<MeasuredSound> sounds = List.of(tone(0.2, 0.5), tone(0.3, 0.4), tone(0.58, 0.6), tone(0.69, 0.8));
        assertSpans(EventCandidates.of(SILENT, sounds), new double[][] {{0.12, 0.88}});
        assertSpans(
                EventCandidates.of(SILENT, List.of(tone(0.2, 0.5), tone(0.61, 0.8))),
                new double[][] {{0.12, 0.58}, {0.12, 0.88}, {0.53, 0.88}});
    }

    /** In whatever order they are given. */
    @Test
    void tonesAreTakenInOrderOfTime() {
        List<MeasuredSound> sounds = List.of(tone(0.61, 0.8), tone(0.2, 0.5));
        assertSpans(EventCandidates.of(SILENT, sounds), new double[][] {{0.12, 0.58}, {0.12, 0.88}, {0.53, 0.88}});
    }

    /** 0.49 s of pause may lie within a sound, 0.51 s may not, and what comes behind such a pause is of no sound before it. */
    @Test
    void aLongPauseParts() {
        List<MeasuredSound> sounds = List.of(tone(0.2, 0.4), tone(0.89, 1), tone(1.51, 1.7), tone(1.9, 2));
        assertSpans(
                EventCandidates.of(SILENT, sounds),
                new double[][] {{0.12, 0.48}, {0.12, 1.08}, {0.81, 1.08}, {1.43, 1.78}, {1.43, 2.08}, {1.82, 2.08}});
    }

    /** Of six tones each begins a candidate of one, of two, of three and of four, and none of five. */
    @Test
    void atMostFourTonesAreOneSound() {
        List<MeasuredSound> sounds = new ArrayList<>();
        for (int k = 0; k < 6; k++) {
            sounds.add(tone(0.2 + 0.3 * k, 0.3 + 0.3 * k));
        }
        List<double[]> expected = new ArrayList<>();
        for (int first = 0; first < 6; first++) {
            for (int count = 1; count <= 4 && first + count <= 6; count++) {
                expected.add(new double[] {0.12 + 0.3 * first, 0.38 + 0.3 * (first + count - 1)});
            }
        }
        assertSpans(EventCandidates.of(SILENT, sounds), expected.toArray(double[][]::new));
        assertThat(expected).hasSize(18);
    }

    /** Runs and tones together, by start and then by end. */
    @Test
    void allAreInOrderOfTime() {
        float[] track = filled(100, -9);
        Arrays.fill(track, 6, 40, 0.5f);
        Arrays.fill(track, 60, 70, 0.5f);
        List<MeasuredSound> sounds = List.of(tone(0.21, 0.5), tone(1.3, 1.4));
        assertSpans(
                EventCandidates.of(new float[][] {SILENT[0], track}, sounds),
                new double[][] {{0.12, 0.8}, {0.13, 0.58}, {1.2, 1.4}, {1.22, 1.48}});
    }
}
