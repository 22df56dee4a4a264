package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ChestNetTest {
    private static final int LAST = 32;

    private static float[] drawn(int n, double deviation, SplittableRandom random) {
        float[] values = new float[n];
        for (int i = 0; i < n; i++) {
            values[i] = (float) (deviation * random.nextGaussian());
        }
        return values;
    }

    private static ChestNet.Block[] blocks(SplittableRandom random) {
        ChestNet.Block[] blocks = new ChestNet.Block[ChestNet.PLANES.length];
        int inputs = 2;
        for (int k = 0; k < blocks.length; k++) {
            int outputs = ChestNet.PLANES[k];
            blocks[k] = new ChestNet.Block(
                    drawn(outputs * inputs * 9, Math.sqrt(2.0 / (9 * inputs)), random),
                    drawn(outputs, 1, random),
                    drawn(outputs, 0.3, random));
            inputs = outputs;
        }
        return blocks;
    }

    private static float[][] image(int frames, SplittableRandom random) {
        float[][] image = new float[2 * ChestNet.BANDS][];
        for (int y = 0; y < image.length; y++) {
            image[y] = drawn(frames, 1, random);
        }
        return image;
    }

    /** Against the definitions, written out in doubles: zero padding, nine taps, gain and shift, rectifier, the largest of each whole field, convolution along time, attention. At lengths that no field divides, too. */
    @ParameterizedTest
    @ValueSource(ints = {16, 17, 61, 467})
    void saysWhatTheDefinitionsSay(int frames) {
        SplittableRandom random = new SplittableRandom(frames);
        ChestNet.Block[] blocks = blocks(random);
        NetHead head = ChestNet.newHead(random);
        float[][] image = image(frames, random);
        double[][] rows = doubles(image);
        double[][][] planes = {
            Arrays.copyOfRange(rows, 0, ChestNet.BANDS), Arrays.copyOfRange(rows, ChestNet.BANDS, 2 * ChestNet.BANDS)
        };
        for (int k = 0; k < blocks.length; k++) {
            planes = block(blocks[k], planes, ChestNet.POOL_ROWS[k], ChestNet.POOL_COLUMNS[k]);
        }
        double[][] moments = new double[head.questions][planes[0][0].length];
        double[] expected = head(head, planes, moments);
        NetLook look = new ChestNet(blocks, head).look(image);
        for (int m = 0; m < expected.length; m++) {
            assertThat(look.logits()[m]).isCloseTo(expected[m], within(1e-3 * (1 + Math.abs(expected[m]))));
        }
        // 8 frames of the image, one after another, are one of the head; those that fill none take the last one's.
        assertThat(look.frames()).hasDimensions(2, frames);
        for (int m = 0; m < 2; m++) {
            for (int f = 0; f < frames; f++) {
                double moment = moments[m][f < frames / 8 * 8 ? f / 8 : frames / 8 - 1];
                assertThat((double) look.frames()[m][f]).isCloseTo(moment, within(1e-3 * (1 + Math.abs(moment))));
            }
        }
    }

    private static double[][] doubles(float[][] image) {
        double[][] plane = new double[image.length][image[0].length];
        for (int y = 0; y < plane.length; y++) {
            for (int t = 0; t < plane[y].length; t++) {
                plane[y][t] = image[y][t];
            }
        }
        return plane;
    }

    private static double at(double[][] plane, int y, int t) {
        return y < 0 || t < 0 || y >= plane.length || t >= plane[0].length ? 0 : plane[y][t];
    }

    private static double[][][] block(ChestNet.Block block, double[][][] in, int poolRows, int poolColumns) {
        int rows = in[0].length / poolRows;
        int columns = in[0][0].length / poolColumns;
        double[][][] out = new double[block.scale().length][rows][columns];
        for (int o = 0; o < out.length; o++) {
            for (int y = 0; y < rows * poolRows; y++) {
                for (int t = 0; t < columns * poolColumns; t++) {
                    double sum = 0;
                    for (int i = 0; i < in.length; i++) {
                        for (int tap = 0; tap < 9; tap++) {
                            sum += block.kernels()[(o * in.length + i) * 9 + tap]
                                    * at(in[i], y + tap / 3 - 1, t + tap % 3 - 1);
                        }
                    }
                    double v = block.scale()[o] * sum + block.shift()[o];
                    out[o][y / poolRows][t / poolColumns] = Math.max(out[o][y / poolRows][t / poolColumns], v);
                }
            }
        }
        return out;
    }

    /** @param moments filled with the logits of each frame, shape {@code [questions][frames]} */
    private static double[] head(NetHead head, double[][][] planes, double[][] moments) {
        int frames = planes[0][0].length;
        double[][] units = new double[LAST][frames];
        for (int j = 0; j < LAST; j++) {
            for (int t = 0; t < frames; t++) {
                double sum = head.alongBias.value[j];
                for (int k = 0; k < head.inputs; k++) {
                    double[][] plane = {planes[k / ChestNet.ROWS_LEFT][k % ChestNet.ROWS_LEFT]};
                    for (int tap = 0; tap < 3; tap++) {
                        sum += head.along.value[(j * head.inputs + k) * 3 + tap] * at(plane, 0, t + tap - 1);
                    }
                }
                units[j][t] = Math.max(0, sum);
            }
        }
        double[] whole = new double[head.questions];
        for (int m = 0; m < whole.length; m++) {
            double weights = 0;
            for (int t = 0; t < frames; t++) {
                double logit = head.askedBias.value[m];
                double attention = 0;
                for (int j = 0; j < LAST; j++) {
                    logit += head.asked.value[m * LAST + j] * units[j][t];
                    attention += head.attended.value[m * LAST + j] * units[j][t];
                }
                moments[m][t] = logit;
                whole[m] += Math.exp(attention) * logit;
                weights += Math.exp(attention);
            }
            whole[m] /= weights;
        }
        return whole;
    }

    /** A recording that is longer than those learnt from is looked at in pieces: what sounds in one is not watered down by the others. */
    @Test
    void aLongRecordingIsAsItsPieces() {
        SplittableRandom random = new SplittableRandom(8);
        ChestNet net = new ChestNet(blocks(random), ChestNet.newHead(random));
        float[][] image = image(1500, random);
        double[] first = net.logits(part(image, 0, 750));
        double[] second = net.logits(part(image, 750, 1500));
        NetLook whole = net.look(image);
        assertThat(whole.logits()[0]).isEqualTo(Math.max(first[0], second[0]));
        assertThat(whole.logits()[1]).isEqualTo(Math.max(first[1], second[1]));
        assertThat(whole.logits()[2]).isCloseTo((first[2] + second[2]) / 2, within(1e-9));
        assertThat(whole.seconds()[0] > 15).isEqualTo(second[0] > first[0]);
    }

    /** Each piece of a long recording says its own moments: 1603 frames are three pieces, none of which eight frames fill. */
    @Test
    void theMomentsOfALongRecordingAreItsPieces() {
        SplittableRandom random = new SplittableRandom(12);
        ChestNet net = new ChestNet(blocks(random), ChestNet.newHead(random));
        float[][] image = image(1603, random);
        float[][] moments = net.look(image).frames();
        assertThat(moments).hasDimensions(2, 1603);
        int[] bounds = {0, 534, 1068, 1603};
        for (int k = 0; k < 3; k++) {
            float[][] own = net.look(part(image, bounds[k], bounds[k + 1])).frames();
            for (int m = 0; m < 2; m++) {
                assertThat(Arrays.copyOfRange(moments[m], bounds[k], bounds[k + 1]))
                        .isEqualTo(own[m]);
            }
        }
        assertThat(part(moments, 0, 534)[0]).isNotEqualTo(part(moments, 534, 1068)[0]);
    }

    private static float[][] part(float[][] image, int from, int to) {
        return Arrays.stream(image)
                .map(band -> Arrays.copyOfRange(band, from, to))
                .toArray(float[][]::new);
    }

    @Test
    void isWrittenAndReadWhole() throws IOException {
        SplittableRandom random = new SplittableRandom(9);
        ChestNet net = new ChestNet(blocks(random), ChestNet.newHead(random));
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        net.write(new DataOutputStream(bytes));
        float[][] image = image(100, random);
        ChestNet read = ChestNet.read(new DataInputStream(new ByteArrayInputStream(bytes.toByteArray())));
        assertThat(read.logits(image)).isEqualTo(net.logits(image));
        assertThatThrownBy(() -> net.logits(image(15, random))).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> net.logits(new float[3][100])).isInstanceOf(IllegalArgumentException.class);
    }
}
