package lungwort.tests;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import lungwort.classify.HeardEvent;
import lungwort.cli.ShippedExaminer;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.practice.PracticeCase;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScenes;
import lungwort.signal.ChestViews;
import lungwort.sound.ContinuousSound;
import lungwort.sound.CrackleFinder;
import lungwort.sound.SoundKind;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Synthesise, then examine with the shipped model: each kind of chest comes out as what it is. The sounds follow the published shapes named in {@code practice}. */
class PracticeRoundTripTest {
    @ParameterizedTest
    @CsvSource({
        "wheeze, CONTINUOUS, WHEEZE",
        "infant-wheeze, CONTINUOUS, WHEEZE",
        "rhonchus, CONTINUOUS, RHONCHUS",
        "fine-crackles, DISCONTINUOUS, FINE_CRACKLE"
    })
    void anExtraSoundIsSuggestedAndItsKindIsTheCommonestEvidence(String id, Suggestion suggestion, SoundKind kind) {
        Examination examination = examine(id);
        assertThat(examination.suggestion()).isEqualTo(suggestion);
        long ofKind = count(examination, kind);
        assertThat(ofKind).as("evidence: %s", examination.evidence()).isPositive();
        for (SoundKind other : SoundKind.values()) {
            assertThat(count(examination, other)).isLessThanOrEqualTo(ofKind);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"polyphonic-wheeze", "stridor"})
    void otherContinuousSoundsAreSuggestedAsContinuous(String id) {
        assertThat(examine(id).suggestion()).isEqualTo(Suggestion.CONTINUOUS);
    }

    /** Where to listen first: nearly every stretch that is told holds a tone that was synthesised there, and most tones lie in one. */
    @ParameterizedTest
    @ValueSource(strings = {"wheeze", "rhonchus", "infant-wheeze"})
    void whereToListenFirstLiesOnTheTonesThatAreThere(String id) {
        PracticeRecording made = PracticeScenes.of(id).scene().synthesise();
        List<ContinuousSound> tones = made.truth().continuous();
        List<HeardEvent> told = ShippedExaminer.examine(made.recording()).events();
        assertThat(told)
                .isNotEmpty()
                .allSatisfy(event -> assertThat(event.continuous()).isTrue());
        assertThat(told.stream()
                        .filter(event -> tones.stream().anyMatch(tone -> sharesHalf(event, tone)))
                        .count())
                .as("told %s, synthesised %s", told, spans(tones))
                .isGreaterThanOrEqualTo(Math.round(0.8 * told.size()));
        assertThat(tones.stream()
                        .filter(tone -> told.stream().anyMatch(event -> sharesHalf(event, tone)))
                        .count())
                .as("told %s, synthesised %s", told, spans(tones))
                .isGreaterThanOrEqualTo(Math.round(0.5 * tones.size()));
    }

    private static boolean sharesHalf(HeardEvent event, ContinuousSound tone) {
        double shared =
                Math.min(event.endSeconds(), tone.endSeconds()) - Math.max(event.startSeconds(), tone.startSeconds());
        return shared >= Math.min(event.durationSeconds(), tone.durationSeconds()) / 2;
    }

    private static List<String> spans(List<ContinuousSound> tones) {
        return tones.stream()
                .map(tone -> "%.1f to %.1f".formatted(tone.startSeconds(), tone.endSeconds()))
                .toList();
    }

    /**
     * Coarse crackles of the synthesiser are measured as what they are, but the shipped model, which has heard one stethoscope, does not know them, and their count alone does not tell a
     * usual chest from an ill one. The model card says so; here it is held that they are found, and that nothing else is suggested in their place.
     */
    @ParameterizedTest
    @ValueSource(strings = {"coarse-crackles", "both"})
    void coarseCracklesAreMeasuredThoughTheModelDoesNotKnowThem(String id) {
        PracticeRecording made = PracticeScenes.of(id).scene().synthesise();
        long coarse = CrackleFinder.find(ChestViews.of(made.recording())).stream()
                .filter(crackle -> crackle.kind() == SoundKind.COARSE_CRACKLE)
                .count();
        assertThat(coarse).isGreaterThanOrEqualTo(made.truth().crackles().size() / 2);
        boolean wheezes = !made.truth().continuous().isEmpty();
        Set<Suggestion> others = wheezes
                ? EnumSet.of(Suggestion.NONE_HEARD, Suggestion.NONE_STANDS_OUT, Suggestion.DISCONTINUOUS)
                : EnumSet.of(Suggestion.CONTINUOUS, Suggestion.BOTH);
        assertThat(others).doesNotContain(examine(id).suggestion());
    }

    @ParameterizedTest
    @ValueSource(strings = "usual")
    void aUsualChestHasNoEvidence(String id) {
        Examination examination = examine(id);
        assertThat(examination.suggestion()).isEqualTo(Suggestion.NONE_STANDS_OUT);
        assertThat(examination.reasons())
                .as("what the model does not find where it does not know the like of it is no reason")
                .singleElement()
                .asString()
                .contains("unlike nearly all that the model learnt from");
        assertThat(examination.evidence()).isEmpty();
    }

    /** What is no chest, or no recording of one, must not be given a confident suggestion of a sound, and never "none heard". */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "silence",
                "too-quiet",
                "clipped",
                "handling",
                "noisy-room",
                "talking",
                "music",
                "heart-only",
                "dropouts"
            })
    void whatCannotBeJudgedIsNotJudged(String id) {
        Set<Suggestion> allowed = EnumSet.of(Suggestion.CANNOT_TELL);
        assertThat(allowed).contains(examine(id).suggestion());
    }

    private static Examination examine(String id) {
        PracticeCase one = PracticeScenes.of(id);
        return ShippedExaminer.examine(one.scene().synthesise().recording());
    }

    private static long count(Examination examination, SoundKind kind) {
        return examination.evidence().stream()
                .filter(e -> e.sound().kind() == kind)
                .count();
    }
}
