package lungwort.quality;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import lungwort.audio.Recording;
import lungwort.breath.BreathPhase;
import lungwort.breath.PhaseSpan;
import lungwort.practice.AddedSound;
import lungwort.practice.AddedSound.Disturbance;
import lungwort.practice.AddedSound.Tone;
import lungwort.practice.BreathPattern;
import lungwort.practice.PracticeScene;
import lungwort.signal.Butterworth;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Voices behind the breath and musical chest sounds, told apart. All synthesised: pulse trains through formants in syllables [C], low-passed as walls and chests do; breath at -26 dB re full scale at its
 * loudest. A voice has pitch from 80 to 350 Hz (an infant's cry 300 to 600 Hz), many harmonics, and comes in pieces; a wheeze has few harmonics and lasts (CORSA 2000: over 100 ms; ATS: over 250 ms [S]).
 */
class BackgroundVoiceTest {
    private static final int RATE = 8000;

    @ParameterizedTest
    @CsvSource({"500, -20", "700, -20", "700, -26", "1000, -26", "3000, -26"})
    void muffledTalkIsTalking(double lowPassHz, double levelDb) {
        for (int seed = 0; seed < 6; seed++) {
            Recording chest = chest(seed).synthesise().recording();
            assertThat(issues(mixed(chest, muffled(talk(seed, levelDb), lowPassHz))))
                    .as("seed %d", seed)
                    .contains(QualityIssue.TALKING);
        }
    }

    @Test
    void talkThatFadesAwayIsTalking() {
        for (int seed = 0; seed < 6; seed++) {
            double[] voice = muffled(talk(seed, -20), 800);
            for (int i = 0; i < voice.length; i++) {
                voice[i] *= Math.pow(10, -1.5 * i / voice.length);
            }
            assertThat(issues(mixed(chest(seed).synthesise().recording(), voice)))
                    .contains(QualityIssue.TALKING);
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {-50, -100})
    void talkThatNobodyCouldHearIsNotClaimed(double levelDb) {
        for (int seed = 0; seed < 6; seed++) {
            Recording chest = chest(seed).synthesise().recording();
            assertThat(issues(mixed(chest, muffled(talk(seed, levelDb), 700)))).doesNotContain(QualityIssue.TALKING);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"wheeze", "rhonchus", "polyphonic", "stridor", "short rhonchi"})
    void musicalChestSoundsAreNoTalk(String kind) {
        for (int seed = 0; seed < 15; seed++) {
            Random random = new Random(1000 + seed);
            double share = random.nextDouble();
            PracticeScene.Builder scene = chest(seed);
            scene.eachPhase(BreathPhase.EXPIRATION, span -> sounds(kind, span, share, random));
            if (seed % 3 == 1) {
                scene.eachPhase(BreathPhase.INSPIRATION, span -> sounds(kind, span, share, random));
            }
            assertThat(issues(scene.synthesise().recording()))
                    .as("%s, seed %d", kind, seed)
                    .doesNotContain(QualityIssue.TALKING);
        }
    }

    @ParameterizedTest
    @CsvSource({"350, -12", "450, -12", "550, -12", "450, -18"})
    void anInfantThatCriesIsHeardAsAVoice(double pitchHz, double levelDb) {
        for (int seed = 0; seed < 4; seed++) {
            Recording chest = chest(3 * seed).synthesise().recording();
            assertThat(issues(mixed(chest, cry(seed, pitchHz, levelDb))))
                    .as("seed %d", seed)
                    .contains(QualityIssue.TALKING);
        }
    }

    /** One airway sounds at one pitch, 4 % up or down from breath to breath [C]; {@code share} says where in its range it lies. */
    private static List<? extends AddedSound> sounds(String kind, PhaseSpan span, double share, Random random) {
        double length = span.endSeconds() - span.startSeconds();
        double at = span.startSeconds() + 0.1 * length;
        double vary = 1 + 0.04 * random.nextGaussian();
        double hz = (200 + 400 * share) * vary;
        double low = (110 + 120 * share) * vary;
        double levelDb = -20 - 8 * random.nextDouble();
        return switch (kind) {
            case "wheeze" ->
                List.of(Tone.wheeze(at, 0.7 * length, hz, hz * (0.85 + 0.3 * random.nextDouble()), levelDb));
            case "rhonchus" -> List.of(Tone.rhonchus(at, 0.7 * length, low, levelDb));
            case "polyphonic" ->
                List.of(
                        Tone.wheeze(at, 0.7 * length, hz, 0.9 * hz, levelDb),
                        Tone.wheeze(at, 0.6 * length, 1.5 * hz, 1.6 * hz, levelDb - 3));
            case "stridor" -> List.of(Tone.stridor(at, 0.7 * length, 500 + hz, levelDb));
            default ->
                List.of(
                        Tone.rhonchus(at, 0.25 * length, low, levelDb),
                        Tone.rhonchus(at + 0.5 * length, 0.25 * length, 1.05 * low, levelDb));
        };
    }

    /** A resting adult, or every third time a fast infant. */
    private static PracticeScene.Builder chest(int seed) {
        boolean infant = seed % 3 == 0;
        return PracticeScene.scene("chest")
                .seed(300 + seed)
                .breath(new BreathPattern(infant ? 40 : 16, 0.4, 0.12, 0.06, 0.4, -26, -6))
                .heart(infant ? 130 : 72, -28);
    }

    private static double[] talk(int seed, double levelDb) {
        return PracticeScene.scene("talk")
                .seed(100 + seed)
                .breath(BreathPattern.NONE)
                .roomNoise(Double.NEGATIVE_INFINITY)
                .add(new Disturbance(Disturbance.Kind.SPEECH, 0.5, 14, levelDb))
                .synthesise()
                .recording()
                .samples();
    }

    private static double[] muffled(double[] voice, double lowPassHz) {
        return Butterworth.lowPass(4, lowPassHz, RATE).filtFilt(voice);
    }

    /** Cries of a second or so, one a breath: pitch rises and falls, overtones fall by 6 dB an octave, the chest piece takes some off the top. */
    private static double[] cry(int seed, double pitchHz, double levelDb) {
        Random random = new Random(seed);
        double[] voice = new double[15 * RATE];
        for (double at = 0.8; at < 13; at += 1.4 + 0.4 * random.nextDouble()) {
            double seconds = 0.7 + 0.5 * random.nextDouble();
            double own = pitchHz * (1 + 0.08 * random.nextGaussian());
            double turn = 0;
            for (int i = 0; i < seconds * RATE; i++) {
                double x = i / (seconds * RATE);
                turn += 2 * Math.PI * own * (0.85 + 0.3 * Math.sin(Math.PI * x)) / RATE;
                double sum = 0;
                for (int h = 1; h <= 6; h++) {
                    sum += Math.sin(h * turn) / h;
                }
                voice[(int) (at * RATE) + i] += Math.pow(10, levelDb / 20) * Math.sin(Math.PI * x) * sum;
            }
        }
        return muffled(voice, 1500);
    }

    private static Recording mixed(Recording chest, double[] voice) {
        double[] x = chest.samples();
        for (int i = 0; i < x.length; i++) {
            x[i] += voice[i];
        }
        return chest.with(x, chest.sampleRateHz());
    }

    private static List<QualityIssue> issues(Recording recording) {
        return new ArrayList<>(QualityCheck.check(recording).findings())
                .stream().map(Quality.Finding::issue).toList();
    }
}
