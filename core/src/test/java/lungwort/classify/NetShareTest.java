package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class NetShareTest {
    private static final double[] EVEN = {0.4, 0.2, 0.2, 0.1, 0.1};

    /** Recordings whose classes are drawn with the probabilities that a known share gives. */
    private record Drawn(double[][] probabilities, double[][] logits, RecordingClass[] labels) {
        static Drawn of(int n, NetShare truth, long seed) {
            SplittableRandom random = new SplittableRandom(seed);
            double[][] p = new double[n][];
            double[][] z = new double[n][];
            RecordingClass[] labels = new RecordingClass[n];
            for (int i = 0; i < n; i++) {
                p[i] = Softmax.inPlace(random.doubles(5, -2, 2).toArray());
                z[i] = random.doubles(3, -3, 3).toArray();
                labels[i] = drawn(truth.apply(p[i], z[i]), random.nextDouble());
            }
            return new Drawn(p, z, labels);
        }

        private static RecordingClass drawn(double[] p, double at) {
            double sum = 0;
            for (int c = 0; c < p.length - 1; c++) {
                sum += p[c];
                if (at < sum) {
                    return RecordingClass.values()[c];
                }
            }
            return RecordingClass.POOR_QUALITY;
        }

        double surprise(NetShare share) {
            double sum = 0;
            for (int i = 0; i < labels.length; i++) {
                sum -= Math.log(share.apply(probabilities[i], logits[i])[labels[i].ordinal()]);
            }
            return sum / labels.length;
        }
    }

    @Test
    void noShareLeavesProbabilitiesAsTheyAre() {
        double[] p = NetShare.none().apply(EVEN, new double[] {3, -2, 1});
        for (int c = 0; c < p.length; c++) {
            assertThat(p[c]).isCloseTo(EVEN[c], within(1e-3));
        }
    }

    /** By hand: odds against "normal" are multiplied by e to the share of each logit whose answer is yes in the class. */
    @Test
    void eachQuestionCountsForTheClassesInWhichItsAnswerIsYes() {
        NetShare share = new NetShare(1, new double[] {0.5, 2, 1}, new double[] {0.25, 0, -1});
        double[] p = share.apply(EVEN, new double[] {1, -0.5, 2});
        double[] odds = {1, 0.5 * Math.exp(0.75), 0.5 * Math.exp(-1), 0.25 * Math.exp(0.75 - 1), 0.25 * Math.exp(2 - 1)
        };
        for (int c = 1; c < p.length; c++) {
            assertThat(p[c] / p[0]).isCloseTo(odds[c], within(2e-3));
        }
        assertThat(Arrays.stream(p).sum()).isCloseTo(1, within(1e-12));
    }

    @Test
    void findsAKnownShareAgain() {
        NetShare truth = new NetShare(0.8, new double[] {0.4, 0.7, 1.1}, new double[] {0.5, -0.3, 0.2});
        NetShare found = NetShare.fit(
                Drawn.of(20_000, truth, 1).probabilities(),
                Drawn.of(20_000, truth, 1).logits(),
                Drawn.of(20_000, truth, 1).labels());
        assertThat(found.slope()).isCloseTo(truth.slope(), within(0.06));
        for (int m = 0; m < 3; m++) {
            assertThat(found.shares()[m]).isCloseTo(truth.shares()[m], within(0.06));
            assertThat(found.offsets()[m]).isCloseTo(truth.offsets()[m], within(0.1));
        }
    }

    /** Where it stops, no step to either side of any number makes the labels likelier. */
    @Test
    void stopsAtTheMaximum() {
        Drawn drawn = Drawn.of(4000, new NetShare(1.2, new double[] {0.2, 0, 1}, new double[3]), 2);
        NetShare best = NetShare.fit(drawn.probabilities(), drawn.logits(), drawn.labels());
        double least = drawn.surprise(best);
        for (int k = 0; k < 7; k++) {
            for (double step : new double[] {-0.05, 0.05}) {
                double[] shares = best.shares().clone();
                double[] offsets = best.offsets().clone();
                double slope = best.slope() + (k == 0 ? step : 0);
                if (k > 3) {
                    offsets[k - 4] += step;
                } else if (k > 0) {
                    shares[k - 1] += step;
                }
                assertThat(drawn.surprise(new NetShare(slope, shares, offsets))).isGreaterThan(least);
            }
        }
    }

    /** Labels that a few recordings separate wholly must not run away. */
    @Test
    void fewRecordingsGiveAFiniteShare() {
        double[][] p = {EVEN, EVEN, EVEN};
        double[][] z = {{50, -50, -50}, {-50, 50, -50}, {-50, -50, -50}};
        RecordingClass[] labels = {RecordingClass.CONTINUOUS, RecordingClass.DISCONTINUOUS, RecordingClass.NORMAL};
        NetShare share = NetShare.fit(p, z, labels);
        assertThat(share.shares()[0]).isBetween(0.0, 2.0);
        assertThat(share.apply(p[0], z[0])[1]).isGreaterThan(0.9);
    }

    @Test
    void refusesWhatIsNoNumber() {
        assertThatThrownBy(() -> new NetShare(Double.NaN, new double[3], new double[3]))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new NetShare(1, new double[2], new double[3]))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
