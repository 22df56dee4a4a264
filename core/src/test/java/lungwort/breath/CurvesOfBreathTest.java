package lungwort.breath;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import lungwort.signal.Statistics;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The tools of the breath tracker against their definitions, each written out the slow way. */
class CurvesOfBreathTest {
    private static double[] noise(int n, long seed) {
        Random random = new Random(seed);
        return IntStream.range(0, n).mapToDouble(i -> random.nextGaussian()).toArray();
    }

    /** Viterbi's path has the probability of the best of all paths, and has it itself. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void theLikeliestPathIsTheBestOfAllPaths(long seed) {
        Random random = new Random(seed);
        int states = 2 + random.nextInt(2);
        int frames = 1 + random.nextInt(7);
        int longest = 1 + random.nextInt(4);
        double[][] next = logs(random, states, states);
        for (int s = 0; s < states; s++) {
            next[s][s] = SemiMarkov.NEVER;
        }
        double[][] stay = logs(random, states, longest + 1);
        double[][] frame = logs(random, states, frames);

        SemiMarkov.Path found = new SemiMarkov(next, stay).decode(frame);

        double best = Double.NEGATIVE_INFINITY;
        int paths = (int) Math.pow(states, frames);
        for (int p = 0; p < paths; p++) {
            byte[] path = new byte[frames];
            for (int t = 0, rest = p; t < frames; t++, rest /= states) {
                path[t] = (byte) (rest % states);
            }
            best = Math.max(best, logOf(path, next, stay, frame));
        }
        assertThat(found.logProbability()).as("seed %d", seed).isCloseTo(best, within(1e-6));
        if (best > SemiMarkov.NEVER / 2) {
            assertThat(logOf(found.states(), next, stay, frame)).isCloseTo(best, within(1e-6));
        }
    }

    private static double[][] logs(Random random, int rows, int columns) {
        double[][] logs = new double[rows][columns];
        for (double[] row : logs) {
            Arrays.setAll(row, i -> Math.log(0.02 + random.nextDouble()));
        }
        return logs;
    }

    /** Log probability of a path: each stay by its length, the first and last by the best length that is no shorter. */
    private static double logOf(byte[] path, double[][] next, double[][] stay, double[][] frame) {
        double log = 0;
        int start = 0;
        for (int t = 1; t <= path.length; t++) {
            log += frame[path[t - 1]][t - 1];
            if (t < path.length && path[t] == path[t - 1]) {
                continue;
            }
            boolean cut = start == 0 || t == path.length;
            double[] lengths = stay[path[start]];
            double best = SemiMarkov.NEVER;
            for (int d = t - start; d < lengths.length; d++) {
                best = Math.max(best, lengths[d]);
                if (!cut) {
                    break;
                }
            }
            log += best;
            if (t < path.length) {
                log += next[path[t - 1]][path[t]];
            }
            start = t;
        }
        return log;
    }

    @Test
    void theLocalRangeIsThePercentilesOfTheSurroundings() {
        double[] x = noise(200, 3);
        double[][] range = LocalRange.of(x, 0.1, 4, 10, 90);

        for (int second = 0; second * 10 < x.length; second++) {
            int at = second * 10;
            double[] near = Arrays.copyOfRange(x, Math.max(0, at - 20), Math.min(x.length, at + 21));
            assertThat(range[0][at]).isCloseTo(Statistics.percentile(near, 10), within(1e-12));
            assertThat(range[1][at]).isCloseTo(Statistics.percentile(near, 90), within(1e-12));
        }
        assertThat(range[0][15]).isCloseTo((range[0][10] + range[0][20]) / 2, within(1e-12));
    }

    @Test
    void gaussianSmoothingHasTheWidthItSays() {
        double[] click = new double[201];
        click[100] = 1;

        double[] smooth = Smoothing.gaussian(click, 5);

        double variance = IntStream.range(0, click.length)
                .mapToDouble(i -> smooth[i] * (i - 100) * (i - 100))
                .sum();
        assertThat(Arrays.stream(smooth).sum()).isCloseTo(1, within(1e-12));
        assertThat(Math.sqrt(variance)).isCloseTo(5, within(0.02));
        double[] level = new double[30];
        Arrays.fill(level, 7);
        assertThat(Arrays.stream(Smoothing.gaussian(level, 3)).allMatch(v -> Math.abs(v - 7) < 1e-12))
                .isTrue();
    }

    @Test
    void theRunningMedianRemovesALoneOutlierAndKeepsAStep() {
        double[] x = {0, 0, 9, 0, 0, 5, 5, 5, 5};
        assertThat(Smoothing.median(x, 3)).containsExactly(0, 0, 0, 0, 0, 5, 5, 5, 5);
        assertThat(Smoothing.every(x, 4)).containsExactly(0, 0, 5);
    }
}
