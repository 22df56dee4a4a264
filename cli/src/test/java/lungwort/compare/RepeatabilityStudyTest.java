package lungwort.compare;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import lungwort.compare.RepeatabilityStudy.Weighted;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.RecordingLabel;
import lungwort.dataset.Split;
import org.junit.jupiter.api.Test;

class RepeatabilityStudyTest {
    /**
     * Bland and Altman, Lancet 1986: peak flow of 17 people, measured twice with two meters; within-subject standard deviations 15.3 and 19.9 l/min. Data and results from memory
     * [M]; that they fit one another was worked out by hand.
     */
    @Test
    void theWithinPersonDeviationOfBlandAndAltmansPeakFlows() {
        double[] wright1 = {494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427};
        double[] wright2 = {490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421};
        double[] mini1 = {512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451};
        double[] mini2 = {525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443};
        assertThat(RepeatabilityStudy.limit(differences(wright1, wright2)).withinPersonDeviation())
                .isCloseTo(15.3, within(0.05));
        assertThat(RepeatabilityStudy.limit(differences(mini1, mini2)).withinPersonDeviation())
                .isCloseTo(19.9, within(0.05));
        // 17 people weigh 1/17 each: 16 of 17 are 94 %, so the 95th percentile is the largest, 54 and 96 l/min.
        assertThat(RepeatabilityStudy.limit(differences(wright1, wright2)).difference())
                .isEqualTo(54);
        assertThat(RepeatabilityStudy.limit(differences(mini1, mini2)).difference())
                .isEqualTo(96);
    }

    private static List<Weighted> differences(double[] a, double[] b) {
        List<Weighted> list = new ArrayList<>();
        for (int i = 0; i < a.length; i++) {
            list.add(new Weighted("person" + i, b[i] - a[i]));
        }
        return list;
    }

    @Test
    void aPatientWithManyPairsWeighsNoMoreThanOneWithOne() {
        List<Weighted> list = new ArrayList<>();
        for (int i = 0; i < 900; i++) {
            list.add(new Weighted("often", 50));
        }
        for (int i = 0; i < 39; i++) {
            list.add(new Weighted("once" + i, -1));
        }
        Repeatability.Limit limit = RepeatabilityStudy.limit(list);
        assertThat(limit.difference()).as("39 of 40 patients are 97.5 %").isEqualTo(1);
        assertThat(limit.pairs()).isEqualTo(939);
        assertThat(limit.patients()).isEqualTo(40);
        assertThat(limit.withinPersonDeviation()).isCloseTo(Math.sqrt((39 * 0.5 + 1250) / 40), within(1e-9));
    }

    /** 39 of 40 do not differ, one by 2: the deviation is the root of 2 * 2 / 2 / 40, and 2.77 times that is the limit. */
    @Test
    void whereHardlyAnyPairDiffersTheRepeatabilityCoefficientStandsInForAPercentileOfZero() {
        List<Weighted> list = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            list.add(new Weighted("person" + i, i == 0 ? 2 : 0));
        }
        assertThat(RepeatabilityStudy.limit(list).difference()).isCloseTo(2.77 * Math.sqrt(0.05), within(0.01));
    }

    private static AnnotatedRecording recording(
            String patient, String site, int number, double age, RecordingLabel label) {
        return new AnnotatedRecording(
                "%s_%s_0_%s_%d".formatted(patient, age, site, number),
                Path.of("none.wav"),
                1,
                OptionalDouble.of(9),
                patient,
                site,
                OptionalDouble.of(age),
                "device",
                Split.TRAIN,
                List.of(),
                label);
    }

    @Test
    void pairsAreConsecutiveTakesOfOnePlaceOfTheSameAgeAndLabel() {
        List<AnnotatedRecording> all = List.of(
                recording("a", "p1", 30, 5, RecordingLabel.NORMAL),
                recording("a", "p1", 4, 5, RecordingLabel.NORMAL),
                recording("a", "p1", 17, 5, RecordingLabel.POOR_QUALITY),
                recording("a", "p1", 99, 5.2, RecordingLabel.NORMAL),
                recording("a", "p2", 5, 5, RecordingLabel.NORMAL),
                recording("b", "p1", 6, 5, RecordingLabel.NORMAL));
        List<RepeatabilityStudy.Pair> pairs = RepeatabilityStudy.sameSite(all);
        assertThat(pairs).hasSize(1);
        assertThat(pairs.get(0).first().id()).endsWith("_4");
        assertThat(pairs.get(0).second().id()).endsWith("_30");
    }

    @Test
    void sidesArePairedWithinOneSittingOfOneChild() {
        List<AnnotatedRecording> all = List.of(
                recording("a", "p1", 10, 5, RecordingLabel.NORMAL),
                recording("a", "p3", 12, 5, RecordingLabel.NORMAL),
                recording("a", "p3", 60, 5, RecordingLabel.NORMAL),
                recording("a", "p2", 11, 5, RecordingLabel.NORMAL),
                recording("a", "p4", 13, 5, RecordingLabel.CAS),
                recording("b", "p3", 14, 5, RecordingLabel.NORMAL));
        List<RepeatabilityStudy.Pair> pairs = RepeatabilityStudy.leftRight(all);
        assertThat(pairs).hasSize(1);
        assertThat(pairs.get(0).first().site()).isEqualTo("p1");
        assertThat(pairs.get(0).second().id()).endsWith("_12");
    }

    @Test
    void eachRecordingIsMeasuredOnceAndWhatItsPairLacksIsLeftOut() {
        List<AnnotatedRecording> all = new ArrayList<>();
        for (int person = 0; person < 20; person++) {
            for (int number = 1; number <= 3; number++) {
                all.add(recording("person" + person, "p1", number, 5, RecordingLabel.NORMAL));
            }
        }
        List<String> measured = new ArrayList<>();
        Map<Measure, Repeatability.Limit> limits = RepeatabilityStudy.limits(RepeatabilityStudy.sameSite(all), r -> {
            measured.add(r.id());
            boolean second = r.id().endsWith("_2");
            return Takes.take(
                    r.id(), second ? Map.of(Measure.RATE, 20.0) : Map.of(Measure.RATE, 24.0, Measure.TILT, 1.0));
        });
        assertThat(measured).hasSize(60).doesNotHaveDuplicates();
        assertThat(limits).containsOnlyKeys(Measure.RATE);
        assertThat(limits.values()).extracting(Repeatability.Limit::difference).containsExactly(4.0);
        assertThat(RepeatabilityStudy.limits(
                        RepeatabilityStudy.sameSite(all.subList(0, 57)),
                        r -> Takes.take(r.id(), Map.of(Measure.RATE, 1.0))))
                .as("19 patients")
                .isEmpty();
    }

    @Test
    void theFileIsReadBack() {
        Repeatability r = Takes.repeatability(2.5);
        Repeatability back = Repeatability.read(RepeatabilityStudy.toJson(r, "about"));
        assertThat(back.sameSite().keySet()).isEqualTo(r.sameSite().keySet());
        assertThat(back.limit(Measure.RATE, Relation.LEFT_RIGHT))
                .isEqualTo(new Repeatability.Limit(2.5, 0.903, 100, 50));
        assertThat(back.limit(Measure.RATE, Relation.UPPER_LOWER)).isNull();
    }
}
