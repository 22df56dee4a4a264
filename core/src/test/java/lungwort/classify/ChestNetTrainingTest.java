package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class ChestNetTrainingTest {
    private static final int FRAMES = 460;
    private static final NetSettings SETTINGS = new NetSettings(1, 1, 0.006);

    private static TrainingItem item(float[][] image, RecordingClass label, boolean[][] heard) {
        return new TrainingItem(
                "p",
                new float[0][],
                List.of(),
                new float[1][0],
                new int[] {0},
                new float[0],
                label,
                false,
                new double[0],
                image,
                heard,
                List.of(),
                List.of(),
                List.of());
    }

    private static float[][] noise(int frames, SplittableRandom random) {
        float[][] image = new float[2 * ChestNet.BANDS][frames];
        for (float[] band : image) {
            for (int t = 0; t < frames; t++) {
                band[t] = (float) (0.4 * random.nextGaussian());
            }
        }
        return image;
    }

    /** Half of them hold a tone, long and in one band; the other half a click now and then, short and in all bands. */
    private static List<TrainingItem> tonesAndClicks(int count, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        List<TrainingItem> items = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            boolean tone = i % 2 == 0;
            float[][] image = noise(FRAMES, random);
            boolean[][] heard = new boolean[2][FRAMES];
            for (int k = 0; k < 4; k++) {
                int from = random.nextInt(FRAMES - 60);
                int band = 4 + random.nextInt(20);
                for (int t = from; t < from + (tone ? 50 : 2); t++) {
                    heard[tone ? 0 : 1][t] = true;
                    for (int y = tone ? band : 0; y <= (tone ? band : ChestNet.BANDS - 1); y++) {
                        image[y][t] += 1.5f;
                        image[ChestNet.BANDS + y][t] += 1.5f;
                    }
                }
            }
            items.add(item(image, tone ? RecordingClass.CONTINUOUS : RecordingClass.DISCONTINUOUS, heard));
        }
        return items;
    }

    private static ChestNetTraining.Example[] batch(SplittableRandom random) {
        ChestNetTraining.Example[] batch = new ChestNetTraining.Example[16];
        for (int b = 0; b < batch.length; b++) {
            float[][] image = new float[2][ChestNet.BANDS * FRAMES];
            for (float[] plane : image) {
                for (int p = 0; p < plane.length; p++) {
                    plane[p] = (float) random.nextGaussian();
                }
            }
            float[][] frames = new float[2][FRAMES / ChestNet.FRAMES_EACH];
            IntStream.range(0, 20).forEach(t -> frames[1][t] = 1);
            batch[b] = new ChestNetTraining.Example(
                    image, new float[] {b % 2, b % 3 == 0 ? 1 : 0, b % 5 == 0 ? 1 : 0}, frames, b % 5 != 0);
        }
        return batch;
    }

    /** The way back is the derivative of the way there: against central differences, for the steepest weight of each kind in each layer. */
    @Test
    void gradientsAreDerivatives() {
        ChestNetTraining.Example[] batch = batch(new SplittableRandom(3));
        List<TrainingItem> none = List.of();
        ChestNetTraining training = new ChestNetTraining(none, SETTINGS, 5);
        training.learn(batch);
        List<AdamWeights> weights = training.weights();
        for (int k = 0; k < weights.size(); k++) {
            float[] gradient = weights.get(k).gradient;
            int steepest = 0;
            for (int i = 0; i < gradient.length; i++) {
                steepest = Math.abs(gradient[i]) > Math.abs(gradient[steepest]) ? i : steepest;
            }
            float step = 0.01f;
            double difference = (loss(batch, k, steepest, step) - loss(batch, k, steepest, -step)) / (2 * step);
            assertThat((double) gradient[steepest])
                    .as("weights %d of %d, number %d", k, weights.size(), steepest)
                    .isNotZero()
                    .isCloseTo(difference, within(0.05 * Math.abs(difference) + 2e-5));
        }
    }

    /** The same seed draws the same weights and drops the same numbers. */
    private static double loss(ChestNetTraining.Example[] batch, int k, int i, float step) {
        ChestNetTraining training = new ChestNetTraining(List.of(), SETTINGS, 5);
        training.weights().get(k).value[i] += step;
        return training.learn(batch);
    }

    @Test
    void learnsTonesFromClicks() {
        List<TrainingItem> learnt = tonesAndClicks(32, 1);
        ChestNet net = ChestNet.fit(learnt, new NetSettings(1, 20, 0.006), 2);
        int right = 0;
        int there = 0;
        List<TrainingItem> others = tonesAndClicks(20, 9);
        for (TrainingItem other : others) {
            NetLook seen = net.look(other.image());
            double[] logits = seen.logits();
            boolean tone = other.label() == RecordingClass.CONTINUOUS;
            right += logits[0] > 0 == tone && logits[1] > 0 != tone ? 1 : 0;
            int question = tone ? ChestNet.CONTINUOUS : ChestNet.DISCONTINUOUS;
            there += heardNear(other.heard()[question], (int) (seen.seconds()[question] / ChestNet.FRAME_SECONDS))
                    ? 1
                    : 0;
        }
        assertThat(right).isGreaterThanOrEqualTo(18);
        assertThat(there).as("what it points at").isGreaterThanOrEqualTo(16);
    }

    private static boolean heardNear(boolean[] heard, int frame) {
        int from = Math.max(0, (frame - 1) * ChestNet.FRAMES_EACH);
        int to = Math.min(heard.length, (frame + 2) * ChestNet.FRAMES_EACH);
        return IntStream.range(from, to).anyMatch(t -> heard[t]);
    }

    /** One seed gives one net, whatever runs beside it. */
    @Test
    void theSameSeedGivesTheSameNet() {
        List<TrainingItem> items = tonesAndClicks(16, 1);
        float[][] image = noise(500, new SplittableRandom(4));
        List<double[]> logits = IntStream.range(0, 2)
                .parallel()
                .mapToObj(i -> ChestNet.fit(items, SETTINGS, 7).logits(image))
                .toList();
        assertThat(logits.get(0)).isEqualTo(logits.get(1));
        assertThat(ChestNet.fit(items, SETTINGS, 8).logits(image)).isNotEqualTo(logits.get(0));
    }
}
