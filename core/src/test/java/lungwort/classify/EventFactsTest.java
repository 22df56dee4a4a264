package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.stream.IntStream;
import lungwort.feature.TimeSpan;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;
import org.junit.jupiter.api.Test;

/** Against numbers worked out by hand; which facts there are is the tool's own choice (common practice). */
class EventFactsTest {
    private static final double[] WHOLE = {0.2, 0.3, 0.1, 0.2, 0.2};

    /** One second: for a continuous sound the net's logit rises from 0 to 4.9, for a discontinuous one it is -2 but for a spike. */
    private static float[][] rising() {
        float[][] frames = new float[2][50];
        for (int f = 0; f < 50; f++) {
            frames[0][f] = f / 10f;
            frames[1][f] = -2;
        }
        frames[1][12] = 3;
        return frames;
    }

    private static Crackle crackle(SoundKind kind, double middle) {
        return new Crackle(kind, middle - 0.005, middle + 0.005, 1, 8, 2, 15);
    }

    private static List<MeasuredSound> sounds() {
        return List.of(
                crackle(SoundKind.COARSE_CRACKLE, 0.15),
                crackle(SoundKind.FINE_CRACKLE, 0.25),
                new ContinuousSound(SoundKind.WHEEZE, 0.3, 0.5, List.of(), 400, 2, false, 0.8, 10),
                new ContinuousSound(SoundKind.RHONCHUS, 0.44, 0.56, List.of(), 200, 0, true, 0.9, 14),
                // a quarter of it lies within 0.2 to 0.6 s
                new ContinuousSound(SoundKind.WHEEZE, 0.55, 0.75, List.of(), 900, 5, true, 1, 40),
                crackle(SoundKind.COARSE_CRACKLE, 0.55),
                crackle(SoundKind.FINE_CRACKLE, 0.65));
    }

    private static Map<String, Double> facts(
            float[][] frames, List<MeasuredSound> sounds, double[] whole, double start, double end) {
        float[] row = new EventFacts(frames, sounds, whole).of(new TimeSpan(start, end));
        assertThat(row).hasSameSizeAs(EventFacts.NAMES);
        Map<String, Double> facts = new TreeMap<>();
        IntStream.range(0, row.length).forEach(i -> facts.put(EventFacts.NAMES.get(i), (double) row[i]));
        return facts;
    }

    private static void assertFacts(Map<String, Double> facts, Map<String, Double> expected) {
        expected.forEach((name, value) -> assertThat(facts)
                .hasEntrySatisfying(name, v -> assertThat(v).as(name).isEqualTo(value, within(1e-5))));
    }

    /** 0.2 to 0.6 s: frames 10 to 29, a quarter is five of them; 20 frames stand behind, but only ten before. */
    @Test
    void whatTheNetSaysWithinAndAround() {
        Map<String, Double> facts = facts(rising(), sounds(), WHOLE, 0.2, 0.6);
        assertFacts(
                facts,
                Map.of(
                        "net.continuous.most", 2.9,
                        "net.continuous.mean", 1.95,
                        "net.continuous.least", 1.0,
                        "net.continuous.first", 1.2,
                        "net.continuous.last", 2.7,
                        "net.continuous.middle", 1.95,
                        "net.continuous.before", 0.45,
                        "net.continuous.after", 3.95,
                        "net.continuous.median", 2.5,
                        "net.continuous.mostOfAll", 4.9));
        assertFacts(
                facts,
                Map.of(
                        "net.discontinuous.most", 3.0,
                        "net.discontinuous.mean", -1.75,
                        "net.discontinuous.least", -2.0,
                        "net.discontinuous.first", -1.0,
                        "net.discontinuous.last", -2.0,
                        "net.discontinuous.middle", -2.0,
                        "net.discontinuous.before", -2.0,
                        "net.discontinuous.after", -2.0,
                        "net.discontinuous.median", -2.0,
                        "net.discontinuous.mostOfAll", 3.0));
    }

    /** Tones count of which more than half lies within; the main one is 14 dB for 0.12 s rather than 10 dB for 0.2 s. Of 20 frames they cover the 6th to the 18th. A crackle lies where its middle lies. */
    @Test
    void whatWasMeasuredWithin() {
        Map<String, Double> facts = facts(rising(), sounds(), WHOLE, 0.2, 0.6);
        assertFacts(
                facts,
                Map.of(
                        "tones.cover", 13 / 20.0,
                        "tones.first", 0.0,
                        "tones.last", 3 / 5.0,
                        "tones.count", 2.0,
                        "tones.longest", 0.2,
                        "tones.prominence", 14.0,
                        "tones.pitch", Math.log(200),
                        "tones.continuity", 0.9,
                        "tones.harmonics", 2.0,
                        "tones.polyphonic", 1.0));
        assertFacts(
                facts,
                Map.of(
                        "length",
                        0.4,
                        "crackles.count",
                        2.0,
                        "crackles.fine",
                        1.0,
                        "crackles.rate",
                        5.0,
                        "recording.cracklesPerSecond",
                        4.0,
                        "recording.tonesPerSecond",
                        3.0));
        assertFacts(
                facts(rising(), sounds(), WHOLE, 0.76, 1),
                Map.of(
                        "tones.cover", 0.0,
                        "tones.count", 0.0,
                        "tones.longest", 0.0,
                        "tones.pitch", 0.0,
                        "tones.continuity", 0.0,
                        "crackles.count", 0.0,
                        "recording.cracklesPerSecond", 4.0));
    }

    /** Of what can be judged, half is called continuous or both (0.5 of 0.8) and three eighths discontinuous or both. */
    @Test
    void whatTheWholeRecordingSoundsLike() {
        assertFacts(
                facts(rising(), sounds(), WHOLE, 0.2, 0.6),
                Map.of(
                        "recording.continuous", Math.log(0.625 / 0.375),
                        "recording.discontinuous", Math.log(0.375 / 0.625)));
    }

    /** Nothing stands before a stretch at the start and behind one at the end: there the recording's median is said, never another number. */
    @Test
    void atTheRecordingsEnds() {
        assertFacts(
                facts(rising(), sounds(), WHOLE, 0, 0.2),
                Map.of("atStart", 1.0, "atEnd", 0.0, "net.continuous.before", 2.5, "net.continuous.after", 1.95));
        assertFacts(
                facts(rising(), sounds(), WHOLE, 0.9, 1.04),
                Map.of("atStart", 0.0, "atEnd", 1.0, "net.continuous.before", 3.45, "net.continuous.after", 2.5));
        assertFacts(facts(rising(), sounds(), WHOLE, 0.07, 0.91), Map.of("atStart", 1.0, "atEnd", 0.0));
        assertFacts(facts(rising(), sounds(), WHOLE, 0.09, 0.93), Map.of("atStart", 0.0, "atEnd", 1.0));
    }

    /** Whatever the stretch, even one that hardly touches the recording or is shorter than a frame, and even where all is called poor. */
    @Test
    void everyFactIsFinite() {
        SplittableRandom random = new SplittableRandom(5);
        for (int k = 0; k < 300; k++) {
            double start = 1.05 * random.nextDouble();
            double end = start + 1e-4 + 0.5 * Math.pow(random.nextDouble(), 4);
            double[] whole = k % 2 == 0 ? WHOLE : new double[] {0, 0, 0, 0, 1};
            assertThat(facts(rising(), sounds(), whole, start, end).values())
                    .as("%s to %s s", start, end)
                    .allMatch(Double::isFinite);
        }
    }

    /** The file of a model holds the names, so that each must be one of a kind. */
    @Test
    void noTwoFactsHaveOneName() {
        assertThat(EventFacts.NAMES).doesNotHaveDuplicates().hasSize(1 + 2 * 10 + 19);
        assertThat(EventFacts.NAMES).noneMatch(name -> name.contains(" "));
    }
}
