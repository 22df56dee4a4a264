package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ForkJoinPool;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import lungwort.golden.Golden;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class PatientBootstrapTest {
    static Stream<Golden> quantiles() {
        return Golden.cases("quantiles");
    }

    @ParameterizedTest
    @MethodSource("quantiles")
    void quantilesAreNumPys(Golden golden) {
        double[] q = golden.array("q");
        double[] expected = golden.array("quantile");
        for (int i = 0; i < q.length; i++) {
            assertThat(PatientBootstrap.quantile(golden.array("x"), q[i])).isEqualTo(expected[i], within(1e-12));
        }
    }

    /** The standard error of a mean of n independent values is s / sqrt(n), so its 95 % interval is close to +-1.96 of that. */
    @Test
    void intervalOfAMeanOfSinglePatientsIsCloseToTheNormalOne() {
        double[] values = new Random(3).doubles(400).toArray();
        List<String> patients =
                IntStream.range(0, 400).mapToObj(Integer::toString).toList();
        Interval interval = new PatientBootstrap(patients, 4000, 1).interval(drawn -> mean(values, drawn));
        double mean = Arrays.stream(values).average().orElseThrow();
        double standardError = Math.sqrt(
                Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum() / 399 / 400);
        assertThat(interval.low()).isEqualTo(mean - 1.96 * standardError, within(0.15 * standardError));
        assertThat(interval.high()).isEqualTo(mean + 1.96 * standardError, within(0.15 * standardError));
        assertThat(interval.resamples()).isEqualTo(4000);
    }

    /** Ten copies of a patient's value are worth one: the interval must not shrink. */
    @Test
    void repeatingAPatientsItemsDoesNotNarrowTheInterval() {
        double[] once = new Random(4).doubles(50).toArray();
        double[] tenTimes = new double[500];
        List<String> patientsOnce = new ArrayList<>();
        List<String> patientsTenTimes = new ArrayList<>();
        for (int i = 0; i < 500; i++) {
            tenTimes[i] = once[i / 10];
            patientsTenTimes.add("p%02d".formatted(i / 10));
            if (i % 10 == 0) {
                patientsOnce.add("p%02d".formatted(i / 10));
            }
        }
        Interval single = new PatientBootstrap(patientsOnce, 500, 9).interval(drawn -> mean(once, drawn));
        Interval repeated = new PatientBootstrap(patientsTenTimes, 500, 9).interval(drawn -> mean(tenTimes, drawn));
        assertThat(repeated.low()).isEqualTo(single.low(), within(1e-12));
        assertThat(repeated.high()).isEqualTo(single.high(), within(1e-12));
    }

    @Test
    void aResampleHoldsWholePatientsAndAsManyAsThereAre() {
        List<String> patients = List.of("a", "b", "a", "c", "a", "b");
        new PatientBootstrap(patients, 200, 5).interval(drawn -> {
            long a =
                    Arrays.stream(drawn).filter(i -> i == 0 || i == 2 || i == 4).count();
            long b = Arrays.stream(drawn).filter(i -> i == 1 || i == 5).count();
            long c = Arrays.stream(drawn).filter(i -> i == 3).count();
            assertThat(a % 3).isZero();
            assertThat(b % 2).isZero();
            assertThat(a / 3 + b / 2 + c).isEqualTo(3);
            return 0;
        });
    }

    @Test
    void theSameSeedGivesTheSameIntervalWithAnyNumberOfThreads() throws Exception {
        double[] values = new Random(6).doubles(300).toArray();
        List<String> patients =
                IntStream.range(0, 300).mapToObj(i -> Integer.toString(i / 4)).toList();
        PatientBootstrap bootstrap = new PatientBootstrap(patients, 300, 11);
        Interval expected = bootstrap.interval(drawn -> mean(values, drawn));
        for (int threads : new int[] {1, 2, 7}) {
            ForkJoinPool pool = new ForkJoinPool(threads);
            assertThat(pool.submit(() -> bootstrap.interval(drawn -> mean(values, drawn)))
                            .get())
                    .isEqualTo(expected);
            pool.shutdown();
        }
        assertThat(new PatientBootstrap(patients, 300, 12).interval(drawn -> mean(values, drawn)))
                .isNotEqualTo(expected);
    }

    @Test
    void resamplesInWhichTheFigureIsUndefinedAreCountedOut() {
        PatientBootstrap bootstrap = new PatientBootstrap(List.of("a", "b"), 400, 2);
        boolean[] truth = {true, false};
        Interval interval = bootstrap.interval(drawn -> Roc.auc(
                Arrays.stream(drawn).mapToDouble(i -> i).toArray(), new boolean[] {truth[drawn[0]], truth[drawn[1]]}));
        // Half of the resamples of two patients hold one of them twice.
        assertThat(interval.resamples()).isBetween(150, 250);
        assertThat(new PatientBootstrap(List.of(), 10, 1)
                        .interval(drawn -> Double.NaN)
                        .low())
                .isNaN();
    }

    private static double mean(double[] values, int[] drawn) {
        return Arrays.stream(drawn).mapToDouble(i -> values[i]).average().orElse(Double.NaN);
    }
}
