package lungwort.sound;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import lungwort.audio.Recording;
import lungwort.practice.BreathPattern;
import lungwort.practice.PracticeScene;
import lungwort.signal.ChestViews;
import org.junit.jupiter.api.Test;

/** What the finders make of noise in which there is nothing. Synthesised truth only; real usual breathing holds more that looks like a crackle. */
class FalseAlarmTest {
    private static final int RECORDINGS = 16;
    private static final double MINUTES = RECORDINGS * 15 / 60.0;

    @Test
    void usualBreathNoiseGivesAlmostNoEvidence() {
        int continuous = 0;
        int crackles = 0;
        for (int i = 0; i < RECORDINGS; i++) {
            ChestViews views = ChestViews.of(PracticeScene.scene("usual")
                    .seed(7000 + i)
                    .heart(60 + 2 * i, -34)
                    .breath(BreathPattern.RESTING.at(10 + i))
                    .synthesise()
                    .recording());
            continuous += ContinuousSoundFinder.find(views).size();
            crackles += CrackleFinder.find(views).size();
        }
        System.out.printf("%d continuous sounds and %d crackles in %.0f minutes%n", continuous, crackles, MINUTES);
        assertThat(continuous / MINUTES).as("continuous sounds a minute").isLessThanOrEqualTo(0.5);
        assertThat(crackles / MINUTES).as("crackles a minute").isLessThanOrEqualTo(1.0);
    }

    @Test
    void whiteNoiseGivesAlmostNoEvidence() {
        int continuous = 0;
        int crackles = 0;
        for (int i = 0; i < RECORDINGS; i++) {
            Random random = new Random(900 + i);
            double[] x = new double[15 * 8000];
            for (int k = 0; k < x.length; k++) {
                x[k] = 0.1 * random.nextGaussian();
            }
            ChestViews views = ChestViews.of(new Recording(x, 8000, "noise"));
            continuous += ContinuousSoundFinder.find(views).size();
            crackles += CrackleFinder.find(views).size();
        }
        System.out.printf("%d continuous sounds and %d crackles in %.0f minutes%n", continuous, crackles, MINUTES);
        assertThat(continuous / MINUTES).as("continuous sounds a minute").isLessThanOrEqualTo(1.0);
        assertThat(crackles / MINUTES).as("crackles a minute").isLessThanOrEqualTo(1.0);
    }
}
