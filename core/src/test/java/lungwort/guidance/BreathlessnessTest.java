package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class BreathlessnessTest {
    @ParameterizedTest
    @EnumSource
    void ofAGrandfatherNobodySaysHowHeFeedsAndPlays(Breathlessness level) {
        assertThat(level.words(Age.ofYears(79))).doesNotContain("feed", "play", "child");
        assertThat(level.words(Age.ofMonths(6))).isEqualTo(level.words());
        // "No more short of breath" reads as "not short of breath any more".
        assertThat(level.words()).doesNotStartWith("no more");
    }

    @ParameterizedTest
    @EnumSource(names = {"ON_EFFORT", "CANNOT_FINISH_SENTENCES"})
    void ofAChildTheSameIsAskedByWhatChildrenDo(Breathlessness level) {
        assertThat(level.words(Age.ofYears(11))).contains("feed");
        assertThat(level.words(Age.ofYears(12))).doesNotContain("feed");
    }
}
