package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import lungwort.BadInput;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every learner must do, whatever its kind. */
class LearnerContractTest {
    private static final int CLASSES = 4;
    private static final int FEATURES = 6;

    static Stream<LearnerSettings> kinds() {
        return Stream.of(
                new LearnerSettings("boosted-trees", Map.of("rounds", 30.0, "columnShare", 0.6)),
                new LearnerSettings("forest", Map.of("trees", 20.0)),
                new LearnerSettings("svm", Map.of("width", 0.7)),
                new LearnerSettings("linear-softmax", Map.of("ridge", 1.0)),
                new LearnerSettings(
                        "perceptron", Map.of("nets", 2.0, "hidden", 16.0, "epochs", 30.0, "learningRate", 0.01)));
    }

    private static Learner fit(LearnerSettings s, long seed) {
        Rows rows = Rows.quadrants(400, FEATURES, CLASSES, 1);
        return s.fit(rows.x, rows.y, rows.weight, CLASSES, seed);
    }

    private static Blend blend(Learner learner) {
        return new Blend(FEATURES, IntStream.range(0, FEATURES).toArray(), List.of(learner));
    }

    private static byte[] blendBytes(Learner learner) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        blend(learner).write(new DataOutputStream(out));
        return out.toByteArray();
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void tellsTheQuadrantOfRowsItHasNotSeen(LearnerSettings s) {
        assertThat(Rows.accuracy(fit(s, 1), Rows.quadrants(400, FEATURES, CLASSES, 2)))
                .isGreaterThan(0.85);
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void givesProbabilitiesThatSumToOne(LearnerSettings s) {
        Learner learner = fit(s, 1);
        for (float[] x : Rows.quadrants(50, FEATURES, CLASSES, 3).x) {
            double[] p = learner.probabilities(x);
            assertThat(p).hasSize(CLASSES);
            assertThat(Arrays.stream(p).allMatch(v -> v >= 0 && v <= 1)).isTrue();
            assertThat(Arrays.stream(p).sum()).isCloseTo(1, within(1e-9));
        }
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void isTheSameForAnyNumberOfThreadsAndInEachRun(LearnerSettings s) throws Exception {
        byte[] one = Rows.withThreads(1, () -> Rows.bytes(fit(s, 5)));
        byte[] three = Rows.withThreads(3, () -> Rows.bytes(fit(s, 5)));
        assertThat(three).isEqualTo(one);
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void saysTheSameAfterWritingAndReading(LearnerSettings s) throws IOException {
        Learner learner = fit(s, 1);
        Blend read = Blend.read(Rows.in(blendBytes(learner)), FEATURES, CLASSES);
        for (float[] x : Rows.quadrants(50, FEATURES, CLASSES, 4).x) {
            assertThat(read.learners().get(0).probabilities(x)).isEqualTo(learner.probabilities(x));
        }
    }

    /** Damage must be told in a sentence or leave a learner that still answers: never another exception, endless loop or number that is none. */
    @ParameterizedTest
    @MethodSource("kinds")
    void refusesOrSurvivesDamage(LearnerSettings s) throws IOException {
        byte[] whole = blendBytes(fit(s, 1));
        long seed = 20_221;
        SplittableRandom random = new SplittableRandom(seed);
        float[] x = Rows.quadrants(1, FEATURES, CLASSES, 6).x[0];
        for (int round = 0; round < 300; round++) {
            byte[] damaged = whole.clone();
            int place = round % 2 == 0 ? random.nextInt(Math.min(200, damaged.length)) : random.nextInt(damaged.length);
            damaged[place] ^= (byte) (1 + random.nextInt(255));
            try {
                Blend blend = Blend.read(Rows.in(damaged), FEATURES, CLASSES);
                assertThat(blend.probabilities(x))
                        .as("seed %d, round %d", seed, round)
                        .hasSize(CLASSES);
            } catch (BadInput | IOException expected) {
                assertThat(expected).hasMessageNotContaining("Exception");
            }
        }
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void refusesToBeCutShort(LearnerSettings s) throws IOException {
        byte[] whole = blendBytes(fit(s, 1));
        for (int length : new int[] {0, 3, 20, whole.length / 2, whole.length - 1}) {
            byte[] cut = Arrays.copyOf(whole, length);
            assertThatThrownBy(() -> Blend.read(Rows.in(cut), FEATURES, CLASSES))
                    .isInstanceOfAny(BadInput.class, IOException.class);
        }
    }
}
