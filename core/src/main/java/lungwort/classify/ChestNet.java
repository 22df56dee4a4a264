package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;

/**
 * A small convolutional net over a recording's mel levels ({@link lungwort.feature.FeatureExtractor#image}), as LeCun et al. 1989 with batch normalisation: four blocks of 3 x 3 kernels, then a
 * {@link NetHead} that answers three questions of the whole recording. Learnt with what listeners marked frame by frame beside. About 18,000 weights. Immutable, safe for many threads.
 */
final class ChestNet {
    /** The images that a net learns from and is bound to, to be changed with anything that changes one ({@link lungwort.feature.MelImage}). */
    static final String IMAGE =
            "32 mel bands from 60 to 1950 Hz, 64 ms and the most of 5 of 16 ms, each 20 ms, dB less the row's median, in sixteenths of 12 dB";

    /** Logits: a continuous extra sound, a discontinuous one, poor quality. */
    static final int OUTPUTS = 3;

    /** Place of the logit of a continuous extra sound. */
    static final int CONTINUOUS = 0;

    /** Place of the logit of a discontinuous extra sound. */
    static final int DISCONTINUOUS = 1;

    /** Place of the logit of poor quality. */
    static final int POOR_QUALITY = 2;

    /** 16 s: the longest recordings of SPRSound have 15.4 s. */
    static final int LONGEST = 800;

    static final int BANDS = lungwort.feature.MelImage.BANDS;

    /** Planes in: long windows and short ones. */
    static final int PLANES_IN = 2;

    static final int[] PLANES = {8, 16, 24, 32};
    static final int[] POOL_ROWS = {2, 2, 2, 2};
    static final int[] POOL_COLUMNS = {2, 4, 1, 1};

    /** Frames of the image for each frame of the head. */
    static final int FRAMES_EACH = 8;

    /** Rows that are left of the bands, for each plane. */
    static final int ROWS_LEFT = 2;

    /** Length of a frame of the head, in seconds. */
    static final double FRAME_SECONDS = FRAMES_EACH * lungwort.feature.MelImage.HOP_SECONDS;

    private static final int MIN_FRAMES = 2 * FRAMES_EACH;

    /**
     * A block with its normalisation folded in.
     *
     * @param kernels tap {@code k} from plane {@code i} to plane {@code o} at {@code (o * inputs + i) * 9 + k}
     * @param scale of each plane out
     * @param shift of each plane out
     */
    record Block(float[] kernels, float[] scale, float[] shift) {}

    private final Block[] blocks;
    private final NetHead head;

    ChestNet(Block[] blocks, NetHead head) {
        this.blocks = blocks;
        this.head = head;
    }

    /**
     * Trains a net; one thread, the same result for the same seed.
     *
     * @param items with label, image and what was heard, as recorded; at least one
     */
    static ChestNet fit(List<TrainingItem> items, NetSettings settings, long seed) {
        return new ChestNetTraining(items, settings, seed).train();
    }

    /** {@link #look}, without where. */
    double[] logits(float[][] image) {
        return look(image).logits();
    }

    /**
     * Looks at a recording. One that is longer than those learnt from is looked at in pieces of equal length: each kind of sound is as probable as in the piece where it is most so, and
     * the quality is the mean of the pieces'.
     *
     * @param image shape {@code [64][frames]}, at least 16 frames
     */
    NetLook look(float[][] image) {
        if (image.length != PLANES_IN * BANDS || image[0].length < MIN_FRAMES) {
            throw new IllegalArgumentException("an image of %d rows, or too short".formatted(image.length));
        }
        int frames = image[0].length;
        int pieces = (frames + LONGEST - 1) / LONGEST;
        double[] logits = new double[OUTPUTS];
        Arrays.fill(logits, 0, POOR_QUALITY, Double.NEGATIVE_INFINITY);
        double[] seconds = new double[OUTPUTS];
        float[][] moments = new float[POOR_QUALITY][frames];
        for (int k = 0; k < pieces; k++) {
            int from = (int) ((long) frames * k / pieces);
            int to = (int) ((long) frames * (k + 1) / pieces);
            NetHead.Seen seen = piece(Arrays.stream(image)
                    .map(band -> Arrays.copyOfRange(band, from, to))
                    .toArray(float[][]::new));
            for (int m = 0; m < POOR_QUALITY; m++) {
                if (seen.whole()[m] > logits[m]) {
                    logits[m] = seen.whole()[m];
                    seconds[m] = from * lungwort.feature.MelImage.HOP_SECONDS + (seen.mostAt(m) + 0.5) * FRAME_SECONDS;
                }
                spread(seen.frames()[m], moments[m], from, to);
            }
            logits[POOR_QUALITY] += seen.whole()[POOR_QUALITY] / pieces;
        }
        return new NetLook(logits, seconds, moments);
    }

    /** Gives each frame of the image the answer of the head's frame that it lies in; those left at the end the last one's. */
    private static void spread(float[] headFrames, float[] moments, int from, int to) {
        for (int f = from; f < to; f++) {
            moments[f] = headFrames[Math.min(headFrames.length - 1, (f - from) / FRAMES_EACH)];
        }
    }

    private NetHead.Seen piece(float[][] image) {
        float[][] planes = {flat(image, 0), flat(image, BANDS)};
        int rows = BANDS;
        int columns = image[0].length;
        for (int k = 0; k < blocks.length; k++) {
            planes = block(blocks[k], planes, new Convolution(rows, columns), POOL_ROWS[k], POOL_COLUMNS[k]);
            rows /= POOL_ROWS[k];
            columns /= POOL_COLUMNS[k];
        }
        return head.forward(headIn(planes, columns));
    }

    private static float[] flat(float[][] image, int from) {
        int columns = image[0].length;
        float[] flat = new float[BANDS * columns];
        for (int y = 0; y < BANDS; y++) {
            System.arraycopy(image[from + y], 0, flat, y * columns, columns);
        }
        return flat;
    }

    /** Rows of all planes, each padded by a zero at both ends: row {@code f} of plane {@code c} at {@code c * ROWS_LEFT + f}. */
    static float[][] headIn(float[][] planes, int columns) {
        float[][] in = new float[planes.length * ROWS_LEFT][columns + 2];
        for (int k = 0; k < in.length; k++) {
            System.arraycopy(planes[k / ROWS_LEFT], k % ROWS_LEFT * columns, in[k], 1, columns);
        }
        return in;
    }

    private static float[][] block(Block block, float[][] in, Convolution shape, int poolRows, int poolColumns) {
        float[][] planes = new float[block.scale.length][shape.size()];
        shape.apply(shape.shifts(in), block.kernels, planes);
        int rows = shape.rows() / poolRows;
        int columns = shape.columns() / poolColumns;
        float[][] out = new float[planes.length][rows * columns];
        for (int o = 0; o < out.length; o++) {
            float[] plane = planes[o];
            for (int y = 0; y < rows * poolRows; y++) {
                for (int t = 0; t < columns * poolColumns; t++) {
                    float v = block.scale[o] * plane[y * shape.columns() + t] + block.shift[o];
                    int at = y / poolRows * columns + t / poolColumns;
                    out[o][at] = Math.max(out[o][at], v);
                }
            }
        }
        return out;
    }

    void write(DataOutput out) throws IOException {
        for (Block block : blocks) {
            Numbers.writeFloats(out, block.kernels);
            Numbers.writeFloats(out, block.scale);
            Numbers.writeFloats(out, block.shift);
        }
        for (AdamWeights weights : head.all()) {
            Numbers.writeFloats(out, weights.value);
        }
    }

    static ChestNet read(DataInput in) throws IOException {
        Block[] blocks = new Block[PLANES.length];
        int inputs = PLANES_IN;
        for (int k = 0; k < blocks.length; k++) {
            blocks[k] = new Block(
                    Numbers.readFloats(in, PLANES[k] * inputs * Convolution.TAPS),
                    Numbers.readFloats(in, PLANES[k]),
                    Numbers.readFloats(in, PLANES[k]));
            inputs = PLANES[k];
        }
        NetHead head = newHead(new java.util.SplittableRandom(0));
        for (AdamWeights weights : head.all()) {
            float[] read = Numbers.readFloats(in, weights.value.length);
            System.arraycopy(read, 0, weights.value, 0, read.length);
        }
        return new ChestNet(blocks, head);
    }

    static NetHead newHead(java.util.SplittableRandom random) {
        int last = PLANES[PLANES.length - 1];
        return new NetHead(last * ROWS_LEFT, last, OUTPUTS, random);
    }
}
