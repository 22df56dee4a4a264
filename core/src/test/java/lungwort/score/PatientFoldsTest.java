package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Properties of folds on random patients; the seed stands in the test's name. */
class PatientFoldsTest {
    static IntStream seeds() {
        return IntStream.range(0, 40);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void noPatientIsInTwoFoldsAndNoFoldIsEmpty(int seed) {
        Items items = Items.random(seed);
        int folds = 2 + seed % 5;
        int[] fold = PatientFolds.assign(items.patients, items.classesArray(), folds, seed);
        Map<String, Integer> foldOf = new HashMap<>();
        for (int i = 0; i < fold.length; i++) {
            assertThat(foldOf.computeIfAbsent(items.patients.get(i), always(fold[i])))
                    .isEqualTo(fold[i]);
        }
        assertThat(foldOf.values())
                .containsAll(IntStream.range(0, folds).boxed().toList());
        assertThat(foldOf.values()).allMatch(f -> f >= 0 && f < folds);
    }

    private static Function<String, Integer> always(int fold) {
        return patient -> fold;
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void theOrderOfTheItemsDoesNotMatter(int seed) {
        Items items = Items.random(seed);
        int[] before = PatientFolds.assign(items.patients, items.classesArray(), 4, seed);
        Map<String, Integer> foldOf = new HashMap<>();
        IntStream.range(0, before.length).forEach(i -> foldOf.put(items.patients.get(i), before[i]));
        Items shuffled = items.shuffled(seed);
        int[] after = PatientFolds.assign(shuffled.patients, shuffled.classesArray(), 4, seed);
        for (int i = 0; i < after.length; i++) {
            assertThat(after[i]).isEqualTo(foldOf.get(shuffled.patients.get(i)));
        }
    }

    /** Root of the squared differences of each fold's share of each class from a quarter, against patients dealt at random. */
    @Test
    void classesAreSharedOutMoreEvenlyThanDealingPatientsAtRandomDoes() {
        double placed = 0;
        double dealt = 0;
        for (int seed : seeds().toArray()) {
            Items items = Items.random(seed);
            placed += unevenness(items, PatientFolds.assign(items.patients, items.classesArray(), 4, seed));
            dealt += unevenness(items, items.dealt(4, seed));
        }
        assertThat(placed).isLessThan(dealt / 2);
    }

    private static double unevenness(Items items, int[] fold) {
        double[][] shares = new double[3][4];
        int[] totals = new int[3];
        items.classes.forEach(c -> totals[c]++);
        for (int i = 0; i < fold.length; i++) {
            int c = items.classes.get(i);
            shares[c][fold[i]] += 1.0 / totals[c];
        }
        double sum = 0;
        for (double[] ofClass : shares) {
            for (double share : ofClass) {
                sum += (share - 0.25) * (share - 0.25);
            }
        }
        return Math.sqrt(sum);
    }

    @Test
    void anotherSeedGivesOtherFoldsAndTheSameSeedTheSame() {
        Items items = Items.random(5);
        int[] one = PatientFolds.assign(items.patients, items.classesArray(), 5, 1);
        assertThat(PatientFolds.assign(items.patients, items.classesArray(), 5, 1))
                .isEqualTo(one);
        assertThat(PatientFolds.assign(items.patients, items.classesArray(), 5, 2))
                .isNotEqualTo(one);
    }

    @Test
    void moreFoldsThanPatientsAreAFault() {
        assertThatThrownBy(() -> PatientFolds.assign(List.of("a", "b", "b"), new int[] {0, 0, 1}, 3, 1))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("3 folds of 2 patients");
    }

    private record Items(List<String> patients, List<Integer> classes) {
        int[] classesArray() {
            return classes.stream().mapToInt(Integer::intValue).toArray();
        }

        static Items random(int seed) {
            Random random = new Random(seed);
            List<String> patients = new ArrayList<>();
            List<Integer> classes = new ArrayList<>();
            for (int p = 0; p < 60; p++) {
                double sick = random.nextDouble();
                for (int i = 0; i < 4 + random.nextInt(20); i++) {
                    patients.add("patient " + p);
                    classes.add(random.nextDouble() < sick * sick ? 1 + random.nextInt(2) : 0);
                }
            }
            return new Items(patients, classes);
        }

        int[] dealt(int folds, int seed) {
            List<String> order = new ArrayList<>(new TreeSet<>(patients));
            Collections.shuffle(order, new Random(seed));
            return patients.stream().mapToInt(p -> order.indexOf(p) % folds).toArray();
        }

        Items shuffled(int seed) {
            List<Integer> order =
                    new ArrayList<>(IntStream.range(0, patients.size()).boxed().toList());
            Collections.shuffle(order, new Random(seed));
            return new Items(
                    order.stream().map(patients::get).toList(),
                    order.stream().map(classes::get).toList());
        }
    }
}
