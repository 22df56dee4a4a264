package lungwort.compare;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import lungwort.BadInput;
import lungwort.audio.SourceFormat;
import lungwort.examine.Suggestion;
import lungwort.guidance.Sites;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class ComparerTest {
    private static final Comparer COMPARER = new Comparer(Takes.repeatability(3));
    private static final SourceFormat OTHER = new SourceFormat("WAV", "PCM", 4000, 16, 1);

    private static Comparison compare(double first, double second, Relation relation) {
        return COMPARER.compare(Takes.take("a", Takes.all(first)), Takes.take("b", Takes.all(second)), relation, true);
    }

    @ParameterizedTest
    @EnumSource(Relation.class)
    void aTakeBesideItselfDiffersInNothing(Relation relation) {
        Comparison same = compare(7, 7, relation);
        assertThat(same.differences())
                .hasSize(Measure.values().length)
                .allMatch(d -> d.difference() == 0 && !d.exceeds());
        assertThat(same.notComparable()).isEmpty();
    }

    @Test
    void swappingTheTakesTurnsTheSign() {
        Comparison ab = compare(2, 9, Relation.BEFORE_AFTER);
        Comparison ba = compare(9, 2, Relation.BEFORE_AFTER);
        for (int i = 0; i < ab.differences().size(); i++) {
            assertThat(ab.differences().get(i).difference())
                    .isEqualTo(-ba.differences().get(i).difference());
            assertThat(ab.differences().get(i).exceeds())
                    .isEqualTo(ba.differences().get(i).exceeds());
        }
    }

    @Test
    void aDifferenceExceedsOnlyBeyondTheLimit() {
        assertThat(compare(0, 3, Relation.EARLIER_LATER).exceeding()).isEmpty();
        assertThat(compare(0, 3.01, Relation.EARLIER_LATER).exceeding()).hasSize(Measure.values().length);
        assertThat(compare(0, -3.01, Relation.LEFT_RIGHT).exceeding()).hasSize(Measure.values().length);
    }

    @Test
    void upperAgainstLowerHasNoLimitAndSofterBasesAreNoFault() {
        Comparison c = compare(0, -20, Relation.UPPER_LOWER);
        assertThat(c.exceeding()).isEmpty();
        assertThat(c.differences()).allMatch(d -> d.limit() == null);
        assertThat(c.findings()).anyMatch(f -> f.contains("usually softer at the bases") && f.contains("not a fault"));
    }

    @Test
    void anotherDeviceLeavesOnlyWhatDoesNotDependOnIt() {
        Comparison c = COMPARER.compare(
                Takes.take("a", Takes.all(1)), Takes.take("b", Takes.all(2)), Relation.EARLIER_LATER, false);
        assertThat(c.differences())
                .extracting(Difference::measure)
                .contains(Measure.RATE, Measure.WHEEZE_SHARE, Measure.CRACKLES_PER_BREATH)
                .doesNotContain(Measure.LEVEL_100_200, Measure.TILT, Measure.CONTRAST);
        assertThat(c.notComparable())
                .hasSize(1)
                .first()
                .asString()
                .startsWith("Another device or setting was used")
                .contains("level 100 to 200 Hz");
    }

    /** "0.0 %" beside a suggested wheeze would read as if there were none, and beside one that was measured as if it had gone. */
    @Test
    void aSuggestedSoundThatWasNotMeasuredHasNoNumberToCompare() {
        SourceFormat source = new SourceFormat("WAV", "PCM", 4000, 16, 1);
        Map<Measure, Double> none = Takes.all(0);
        TakeMeasures measured = Takes.take("a", Takes.all(20), Suggestion.BOTH, true, source);
        TakeMeasures suggested = Takes.take("b", none, Suggestion.CONTINUOUS, true, source);

        Comparison c = COMPARER.compare(measured, suggested, Relation.BEFORE_AFTER, true);

        assertThat(c.differences())
                .extracting(Difference::measure)
                .doesNotContain(Measure.WHEEZE_SHARE)
                .contains(Measure.CRACKLES_PER_BREATH);
        assertThat(c.notComparable())
                .containsExactly(
                        "b suggests a continuous sound that the measuring did not find: there is no number of it to compare.");
        assertThat(Usual.of(suggested, List.of(measured, measured, measured), true, Takes.repeatability(1)))
                .extracting(Usual::measure)
                .doesNotContain(Measure.WHEEZE_SHARE);
        TakeMeasures crackles = Takes.take("c", none, Suggestion.DISCONTINUOUS, true, source);
        assertThat(COMPARER.compare(crackles, crackles, Relation.FIRST_SECOND, true)
                        .notComparable())
                .containsOnly(
                        "c suggests crackles that the measuring did not find: there is no number of them to compare.");
        TakeMeasures noneHeard = Takes.take("d", none, Suggestion.NONE_HEARD, true, source);
        assertThat(COMPARER.compare(measured, noneHeard, Relation.FIRST_SECOND, true)
                        .differences())
                .as("where none was suggested either, a zero is a number")
                .extracting(Difference::measure)
                .contains(Measure.WHEEZE_SHARE, Measure.CRACKLES_PER_BREATH);
    }

    @Test
    void recordingsThatWereStoredDifferentlyAreTakenAsOtherSettings() {
        TakeMeasures narrow = Takes.take("b", Takes.all(2), Suggestion.NONE_HEARD, true, OTHER);
        Comparison c = COMPARER.compare(Takes.take("a", Takes.all(1)), narrow, Relation.EARLIER_LATER, true);
        assertThat(c.notComparable()).anyMatch(s -> s.contains("8000 and 4000 samples a second"));
        assertThat(c.differences()).extracting(Difference::measure).doesNotContain(Measure.LEVEL_100_200);
    }

    @Test
    void aRecordingThatStopsBelow2KilohertzTakesTheCracklesAlong() {
        TakeMeasures narrow =
                Takes.take("b", Takes.all(2), Suggestion.NONE_HEARD, true, new SourceFormat("WAV", "PCM", 2000, 16, 1));
        Comparison c = COMPARER.compare(Takes.take("a", Takes.all(1)), narrow, Relation.EARLIER_LATER, true);
        assertThat(c.notComparable()).anyMatch(s -> s.contains("only up to 1000 Hz"));
        assertThat(c.differences())
                .extracting(Difference::measure)
                .contains(Measure.RATE)
                .doesNotContain(Measure.CRACKLES_PER_BREATH);
    }

    @Test
    void aRecordingThatCannotBeJudgedLosesItsEvidence() {
        TakeMeasures poor = Takes.take(
                "poor", Takes.all(2), Suggestion.CANNOT_TELL, false, new SourceFormat("WAV", "PCM", 8000, 16, 1));
        Comparison c = COMPARER.compare(Takes.take("a", Takes.all(1)), poor, Relation.BEFORE_AFTER, true);
        assertThat(c.notComparable()).anyMatch(s -> s.startsWith("poor could not be judged"));
        assertThat(c.differences())
                .extracting(Difference::measure)
                .doesNotContain(Measure.WHEEZE_SHARE, Measure.CRACKLES_PER_BREATH, Measure.CONTINUOUS_PROBABILITY);
        assertThat(c.findings().get(0)).contains("it cannot be told");
        assertThat(c.findings()).anyMatch(f -> f.startsWith("Record again what cannot be judged or told"));
    }

    @Test
    void allBandsLouderTogetherAreRatherALevelThanAChest() {
        Map<Measure, Double> louder = new EnumMap<>(Takes.all(0));
        List<Measure> bands =
                List.of(Measure.LEVEL_100_200, Measure.LEVEL_200_400, Measure.LEVEL_400_800, Measure.LEVEL_800_1600);
        bands.forEach(b -> louder.put(b, 10.0));
        Comparison c =
                COMPARER.compare(Takes.take("a", Takes.all(0)), Takes.take("b", louder), Relation.EARLIER_LATER, true);
        assertThat(c.findings()).anyMatch(f -> f.startsWith("All bands are 10 dB louder together"));
        louder.put(Measure.LEVEL_800_1600, 0.0);
        Comparison one =
                COMPARER.compare(Takes.take("a", Takes.all(0)), Takes.take("b", louder), Relation.EARLIER_LATER, true);
        assertThat(one.findings()).noneMatch(f -> f.startsWith("All bands"));
    }

    @Test
    void noDifferenceIsNeverWordedAsAnAllClear() {
        Pattern reassuring = Pattern.compile("(?i)all is well|nothing to worry|healthy|is fine|no problem");
        for (Relation relation : Relation.values()) {
            List<String> words = compare(1, 1, relation).findings();
            assertThat(words).noneMatch(w -> reassuring.matcher(w).find());
            assertThat(words).anyMatch(w -> w.contains("no all-clear"));
        }
        assertThat(compare(1, 1, Relation.BEFORE_AFTER).findings())
                .anyMatch(w -> w.contains("does not show that nothing has changed"));
        assertThat(Comparison.CAUTION).contains("no difference is no all-clear").contains("clinicians decide");
    }

    @Test
    void theRelationFollowsFromTheSites() {
        assertThat(Relation.between(Sites.of("back-lower-left"), Sites.of("back-lower-right")))
                .isEqualTo(Relation.LEFT_RIGHT);
        assertThat(Relation.between(Sites.of("back-upper-left"), Sites.of("back-lower-left")))
                .isEqualTo(Relation.UPPER_LOWER);
        assertThat(Relation.between(Sites.of("back-lower-left"), Sites.of("back-lower-left")))
                .isEqualTo(Relation.BEFORE_AFTER);
        assertThat(Relation.between(Sites.of("back-lower-left"), Sites.of("front-lower-left")))
                .isNull();
        assertThat(Relation.between(Sites.of("neck"), Sites.of("front-lower-left")))
                .isNull();
        assertThatThrownBy(() -> Relation.ofId("beside"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("left-right");
    }
}
