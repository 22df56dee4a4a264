package lungwort.compare;

import static org.assertj.core.api.Assertions.assertThat;

import lungwort.compare.Clearing.State;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import org.junit.jupiter.api.Test;

/** Does an extra sound clear after moving, deep breaths or a cough? With the numbers before and after. */
class ClearingTest {
    private static final Repeatability TEN = Takes.repeatability(10);

    private static Examination take(Suggestion suggestion, double wheezeSeconds, int crackles) {
        return Takes.examination(suggestion, wheezeSeconds, crackles);
    }

    private static State state(Examination before, Examination after) {
        return Clearing.of(before, after, TEN).get(0).state();
    }

    @Test
    void aWheezeThatIsNoLongerSuggestedCleared() {
        Clearing c = Clearing.of(take(Suggestion.CONTINUOUS, 1, 0), take(Suggestion.NONE_HEARD, 0, 0), TEN)
                .get(0);
        assertThat(c.state()).isEqualTo(State.CLEARED);
        assertThat(c.before()).isEqualTo(25);
        assertThat(c.after()).isEqualTo(0);
        assertThat(c.words())
                .contains("cleared")
                .contains("25.0 % before, 0.0 % after")
                .contains("stays written down");
    }

    @Test
    void aSoundOfWhichHalfIsStillMeasuredHasNotSurelyCleared() {
        Examination eight = take(Suggestion.DISCONTINUOUS, 0, 8);
        assertThat(state(eight, take(Suggestion.NONE_HEARD, 0, 4))).isEqualTo(State.UNSURE);
        assertThat(state(eight, take(Suggestion.NONE_HEARD, 0, 3))).isEqualTo(State.CLEARED);
    }

    /** Breaths of 4 s: 0.4 s of wheeze are 10 %, the limit here. */
    @Test
    void lessOrMoreOnlyBeyondTheRepeatability() {
        Examination quarter = take(Suggestion.CONTINUOUS, 1, 0);
        assertThat(state(quarter, take(Suggestion.CONTINUOUS, 0.61, 0))).isEqualTo(State.STAYS);
        assertThat(state(quarter, take(Suggestion.CONTINUOUS, 0.59, 0))).isEqualTo(State.LESS);
        assertThat(state(quarter, take(Suggestion.CONTINUOUS, 1.41, 0))).isEqualTo(State.MORE);
        assertThat(state(take(Suggestion.DISCONTINUOUS, 0, 20), take(Suggestion.DISCONTINUOUS, 0, 9)))
                .isEqualTo(State.LESS);
        assertThat(state(take(Suggestion.DISCONTINUOUS, 0, 20), take(Suggestion.DISCONTINUOUS, 0, 10)))
                .isEqualTo(State.STAYS);
    }

    @Test
    void eachKindIsJudgedByItself() {
        var both = Clearing.of(take(Suggestion.BOTH, 1, 5), take(Suggestion.CONTINUOUS, 1, 0), TEN);
        assertThat(both).extracting(Clearing::state).containsExactly(State.STAYS, State.CLEARED);
        assertThat(both.get(1).words()).contains("5.0 before, 0.0 after");
        var changed = Clearing.of(take(Suggestion.CONTINUOUS, 1, 0), take(Suggestion.DISCONTINUOUS, 0, 5), TEN);
        assertThat(changed).extracting(Clearing::state).containsExactly(State.CLEARED, State.NEW);
    }

    @Test
    void aLaterTakeThatCannotBeJudgedClearsNothing() {
        assertThat(state(take(Suggestion.CONTINUOUS, 1, 0), take(Suggestion.CANNOT_TELL, 0, 0)))
                .isEqualTo(State.CANNOT_TELL);
    }

    /** A later take unlike what was learnt from does not show that a sound went; what is still measured in it is told. */
    @Test
    void whereNothingStandsOutNothingCleared() {
        Examination eight = take(Suggestion.DISCONTINUOUS, 0, 8);
        Clearing crackles =
                Clearing.of(eight, take(Suggestion.NONE_STANDS_OUT, 0, 3), TEN).get(0);
        assertThat(crackles.state()).isEqualTo(State.NOT_TOLD);
        assertThat(crackles.words())
                .isEqualTo(
                        "The crackles do not stand out in the later take, but that sounds unlike what Lungwort learnt from and does not show that they cleared. That they were heard stays written down. Crackles in each breath: 8.0 before, 3.0 after.");
        assertThat(crackles.wordsBeside()).isEqualTo(crackles.words());
        assertThat(state(take(Suggestion.CONTINUOUS, 1, 0), take(Suggestion.NONE_STANDS_OUT, 0, 0)))
                .isEqualTo(State.NOT_TOLD);
        assertThat(state(eight, take(Suggestion.NONE_STANDS_OUT, 0, 4))).isEqualTo(State.UNSURE);
    }

    /** Nor does it where the later take names the other kind: the first kind can be missed beside it. */
    @Test
    void unlikeWhatWasLearntTheOtherKindDoesNotShowThatOneCleared() {
        var both = Clearing.of(take(Suggestion.BOTH, 1, 5), Takes.unlikeLearnt(Suggestion.CONTINUOUS, 1, 0), TEN);
        assertThat(both).extracting(Clearing::state).containsExactly(State.STAYS, State.NOT_TOLD);
        assertThat(both.get(1).words())
                .contains("does not show that they cleared")
                .endsWith("5.0 before, not known after.");
    }

    /** What a zero would say of a sound that is suggested, or of a take in which most can be missed, is not known. */
    @Test
    void aZeroThatSaysNothingIsNotTold() {
        Examination quarter = take(Suggestion.CONTINUOUS, 1, 0);
        Clearing suggested =
                Clearing.of(quarter, take(Suggestion.CONTINUOUS, 0, 0), TEN).get(0);
        assertThat(suggested.state()).isEqualTo(State.STAYS);
        assertThat(suggested.after()).isNull();
        assertThat(suggested.words())
                .isEqualTo(
                        "The continuous sound stays. Share of the breathing it fills: 25.0 % before, not known after.");
        assertThat(state(take(Suggestion.CONTINUOUS, 0, 0), quarter)).isEqualTo(State.STAYS);
        assertThat(Clearing.of(quarter, take(Suggestion.NONE_STANDS_OUT, 0, 0), TEN)
                        .get(0)
                        .words())
                .endsWith("25.0 % before, not known after.");
    }

    @Test
    void withoutAnExtraSoundThereIsNothingToClear() {
        assertThat(Clearing.of(take(Suggestion.NONE_HEARD, 0, 0), take(Suggestion.NONE_HEARD, 0, 0), TEN))
                .isEmpty();
    }

    @Test
    void withoutALimitNothingIsCalledLess() {
        Repeatability none = new Repeatability("test", java.util.Map.of(), java.util.Map.of());
        assertThat(Clearing.of(take(Suggestion.CONTINUOUS, 1, 0), take(Suggestion.CONTINUOUS, 0.1, 0), none)
                        .get(0)
                        .state())
                .isEqualTo(State.STAYS);
    }
}
