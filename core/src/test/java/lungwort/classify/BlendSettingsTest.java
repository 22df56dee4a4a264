package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;

class BlendSettingsTest {
    private static BlendSettings settings(String... features) {
        return new BlendSettings(List.of(features), List.of(new LearnerSettings("linear-softmax", Map.of())));
    }

    @Test
    void namesFeaturesWithStars() {
        assertThat(settings().uses("ridge.highest.mean")).isTrue();
        assertThat(settings("ridge.*").uses("ridge.highest.mean")).isTrue();
        assertThat(settings("ridge.*").uses("rise.joint.max")).isFalse();
        assertThat(settings("cepstrum.*.mean").uses("cepstrum.3.mean")).isTrue();
        assertThat(settings("cepstrum.*.mean").uses("cepstrum.3.mean.relative")).isFalse();
        assertThat(settings("duration").uses("duration")).isTrue();
        assertThat(settings("duration").uses("durations")).isFalse();
    }

    @Test
    void leavesOutWhatBeginsWithAMinus() {
        BlendSettings s = settings("-duration", "-cepstrum.*.mean");
        assertThat(s.uses("duration")).isFalse();
        assertThat(s.uses("cepstrum.3.mean")).isFalse();
        assertThat(s.uses("cepstrum.3.sd")).isTrue();
        assertThat(settings("ridge.*", "-ridge.*.max").uses("ridge.highest.max"))
                .isFalse();
        assertThat(settings("ridge.*", "-ridge.*.max").uses("rise.joint.max")).isFalse();
    }

    @Test
    void needsALearner() {
        List<LearnerSettings> none = List.of();
        List<String> all = List.of();
        assertThatThrownBy(() -> new BlendSettings(all, none)).isInstanceOf(BadInput.class);
    }
}
