package lungwort.examine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import lungwort.breath.BreathPhase;
import lungwort.breath.BreathTracker;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.practice.AddedSound;
import lungwort.practice.AddedSound.Tone;
import lungwort.practice.BreathPattern;
import lungwort.practice.CrackleTrain;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScene;
import lungwort.signal.ChestViews;
import lungwort.sound.ContinuousSound;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundSearch;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** From sound to summary against exact truth: breaths and sounds found, not given. All synthesised. */
class PlacedSoundsTest {
    private static final double POSITION_TOLERANCE = 0.15;
    private static final int CRACKLES = 5;

    @ParameterizedTest
    @CsvSource({
        "INSPIRATION, 0.05, 0.3",
        "INSPIRATION, 0.35, 0.65",
        "INSPIRATION, 0.7, 0.95",
        "EXPIRATION, 0.05, 0.3",
        "EXPIRATION, 0.35, 0.65"
    })
    void cracklesAreEarlyMiddleOrLateWhereTheyWerePut(BreathPhase phase, double from, double to) {
        PracticeRecording scene =
                scene(15).eachPhase(phase, span -> crackles(span, from, to)).synthesise();
        List<Evidence> crackles = placed(scene).stream()
                .filter(e -> !e.sound().kind().continuous())
                .toList();
        assertThat(crackles).hasSizeGreaterThan(scene.truth().crackles().size() / 3);
        double middle = crackles.stream()
                .filter(e -> e.phase() == phase)
                .mapToDouble(Evidence::position)
                .average()
                .orElse(-1);
        assertThat(middle).isCloseTo((from + to) / 2, within(POSITION_TOLERANCE));
        assertThat(crackles).filteredOn(e -> e.phase() == phase).hasSizeGreaterThan(8 * crackles.size() / 10);
        BreathSummary summary = summary(scene);
        long whole = scene.truth().crackles().size();
        double found = (double) crackles.size() / whole;
        assertThat(summary.cracklesPerBreath()).isCloseTo(CRACKLES * found, within(1.5));
    }

    @ParameterizedTest
    @ValueSource(doubles = {12, 20, 35})
    void theShareOfTheBreathThatWheezeFillsIsRight(double perMinute) {
        PracticeRecording scene = scene(perMinute)
                .eachPhase(
                        BreathPhase.EXPIRATION,
                        span -> List.of(Tone.wheeze(at(span, 0.1), 0.7 * length(span), 420, 390, -26)))
                .synthesise();
        // 0.7 of an expiration that is 0.45 of the cycle.
        assertThat(summary(scene).continuousShare()).isCloseTo(0.7 * 0.45, within(0.06));
        List<PhaseSummary> phases = PhaseSummary.of(breathing(scene), placed(scene));
        assertThat(phases)
                .filteredOn(p -> p.phase() == BreathPhase.EXPIRATION)
                .allMatch(p -> Math.abs(p.continuousShare() - 0.7) < 0.15)
                .hasSize(1);
        assertThat(phases)
                .filteredOn(p -> p.phase() == BreathPhase.INSPIRATION)
                .allMatch(p -> p.continuousShare() < 0.1);
        assertThat(placed(scene))
                .filteredOn(e -> e.phase() == BreathPhase.EXPIRATION)
                .hasSizeGreaterThan(8 * placed(scene).size() / 10);
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void oneToneIsMonophonicAndTwoOfDifferentPitchArePolyphonic(boolean two) {
        PracticeRecording scene = scene(15)
                .eachPhase(BreathPhase.EXPIRATION, span -> wheezes(span, two))
                .synthesise();
        BreathSummary summary = summary(scene);
        assertThat(two ? summary.monophonic() : summary.polyphonic()).isZero();
        assertThat(two ? summary.polyphonic() : summary.monophonic()).isGreaterThanOrEqualTo(2);
        assertThat(placed(scene))
                .extracting(Evidence::sound)
                .filteredOn(ContinuousSound.class::isInstance)
                .allMatch(sound -> ((ContinuousSound) sound).polyphonic() == two);
    }

    /** None in the last breath, which the end of the recording cuts. */
    private static List<? extends AddedSound> crackles(PhaseSpan span, double from, double to) {
        return length(span) < 1 ? List.of() : CrackleTrain.fine(at(span, from), at(span, to), CRACKLES, -8, 7);
    }

    private static List<AddedSound> wheezes(PhaseSpan span, boolean two) {
        List<AddedSound> tones = new ArrayList<>();
        tones.add(Tone.wheeze(at(span, 0.1), 0.6 * length(span), 310, 290, -26));
        if (two) {
            tones.add(Tone.wheeze(at(span, 0.1), 0.6 * length(span), 540, 500, -28));
        }
        return tones;
    }

    private static PracticeScene.Builder scene(double perMinute) {
        return PracticeScene.scene("placed")
                .seed(61)
                .seconds(20)
                .breath(BreathPattern.RESTING.at(perMinute))
                .heart(75, -32);
    }

    private static Breathing breathing(PracticeRecording scene) {
        return BreathTracker.track(scene.recording());
    }

    private static List<Evidence> placed(PracticeRecording scene) {
        Breathing breathing = breathing(scene);
        List<MeasuredSound> sounds =
                SoundSearch.in(ChestViews.of(scene.recording())).sounds();
        return sounds.stream().map(sound -> Evidence.of(sound, breathing)).toList();
    }

    private static BreathSummary summary(PracticeRecording scene) {
        return BreathSummary.of(breathing(scene), placed(scene)).get(0);
    }

    private static double at(PhaseSpan span, double share) {
        return span.startSeconds() + share * length(span);
    }

    private static double length(PhaseSpan span) {
        return span.endSeconds() - span.startSeconds();
    }
}
