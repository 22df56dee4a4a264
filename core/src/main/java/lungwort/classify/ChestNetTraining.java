package lungwort.classify;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/**
 * Trains a {@link ChestNet} by mini-batch Adam, with the learning rate rising and falling once (Smith and Topin 2019). Learnt are the labels of the whole recordings and, frame by frame,
 * what listeners marked when. Each recording is cut to one length at a random place or repeated, shifted by a band at most, and has bands and stretches blanked (Park et al. 2019), so that little is learnt by heart.
 */
final class ChestNetTraining {
    private static final int BATCH = 16;

    /** 9.2 s, the length of most of SPRSound's recordings. */
    private static final int FRAMES = 460;

    /** A recording that is hardly longer is taken as seen whole. */
    private static final int WHOLE_UP_TO = FRAMES + 6;

    private static final int BLANKS = 2;
    private static final int MOST_BANDS_BLANKED = 3;
    private static final int MOST_FRAMES_BLANKED = 24;
    private static final float DROPPED = 0.3f;
    private static final double DECAY = 0.01;
    private static final double RISING = 0.3;
    private static final double FIRST_SHARE = 1.0 / 25;
    private static final double LAST_SHARE = 1.0 / 250_000;

    private final List<TrainingItem> items;
    private final NetSettings settings;
    private final SplittableRandom random;
    private final ConvolutionBlock[] blocks = new ConvolutionBlock[ChestNet.PLANES.length];
    private final NetHead head;

    ChestNetTraining(List<TrainingItem> items, NetSettings settings, long seed) {
        this.items = items;
        this.settings = settings;
        this.random = new SplittableRandom(seed);
        int inputs = ChestNet.PLANES_IN;
        int rows = ChestNet.BANDS;
        int columns = FRAMES;
        for (int k = 0; k < blocks.length; k++) {
            blocks[k] = new ConvolutionBlock(
                    BATCH,
                    inputs,
                    ChestNet.PLANES[k],
                    new Convolution(rows, columns),
                    ChestNet.POOL_ROWS[k],
                    ChestNet.POOL_COLUMNS[k],
                    random);
            inputs = ChestNet.PLANES[k];
            rows = blocks[k].rowsOut();
            columns = blocks[k].columnsOut();
        }
        head = ChestNet.newHead(random);
    }

    /**
     * What is learnt from one recording.
     *
     * @param image long windows, then short ones, each of shape {@code [BANDS * FRAMES]}
     * @param whole 1 where the answer to a question is yes, else 0; shape {@code [OUTPUTS]}
     * @param frames 1 where something was marked in a frame of the head; shape {@code [2][frames of the head]}
     * @param judged false for a recording of poor quality, of whose sounds nobody said anything
     */
    @SuppressWarnings("ArrayRecordComponent") // numbers on their way, never compared
    record Example(float[][] image, float[] whole, float[][] frames, boolean judged) {}

    ChestNet train() {
        int[] order = IntStream.range(0, items.size()).toArray();
        int batches = Math.max(1, order.length / BATCH);
        int steps = settings.epochs() * batches;
        int step = 0;
        for (int epoch = 0; epoch < settings.epochs(); epoch++) {
            Shuffle.inPlace(order, random);
            for (int batch = 0; batch < batches; batch++) {
                Example[] examples = new Example[BATCH];
                for (int b = 0; b < BATCH; b++) {
                    examples[b] = example(items.get(order[(batch * BATCH + b) % order.length]));
                }
                learn(examples);
                step++;
                update(settings.learningRate() * share((double) (step - 1) / steps), step);
            }
        }
        return net();
    }

    private static double share(double done) {
        if (done < RISING) {
            return cosine(FIRST_SHARE, 1, done / RISING);
        }
        return cosine(1, LAST_SHARE, (done - RISING) / (1 - RISING));
    }

    private static double cosine(double from, double to, double done) {
        return to + (from - to) * 0.5 * (1 + Math.cos(Math.PI * done));
    }

    /** A recording as it is shown this time. */
    private Example example(TrainingItem item) {
        float[][] image = item.image();
        int length = image[0].length;
        int start = length > FRAMES ? random.nextInt(length - FRAMES + 1) : 0;
        int shift = random.nextInt(3) - 1;
        float[][] shown = new float[ChestNet.PLANES_IN][ChestNet.BANDS * FRAMES];
        for (int y = 0; y < image.length; y++) {
            int plane = y / ChestNet.BANDS;
            int band = Math.max(0, Math.min(ChestNet.BANDS - 1, y % ChestNet.BANDS - shift));
            float[] row = image[plane * ChestNet.BANDS + band];
            for (int t = 0; t < FRAMES; t++) {
                shown[plane][y % ChestNet.BANDS * FRAMES + t] = row[(start + t) % length];
            }
        }
        for (int k = 0; k < BLANKS; k++) {
            blankBands(shown);
            blankFrames(shown);
        }
        float[][] frames = new float[2][headFrames()];
        boolean[] any = new boolean[2];
        for (int q = 0; q < 2 && item.heard().length > 0; q++) {
            for (int t = 0; t < frames[q].length * ChestNet.FRAMES_EACH; t++) {
                if (item.heard()[q][(start + t) % length]) {
                    frames[q][t / ChestNet.FRAMES_EACH] = 1;
                    any[q] = true;
                }
            }
        }
        RecordingClass label = java.util.Objects.requireNonNull(item.label());
        boolean whole = length <= WHOLE_UP_TO;
        boolean poor = label == RecordingClass.POOR_QUALITY;
        return new Example(
                shown,
                new float[] {
                    label.continuous() && (whole || any[0]) ? 1 : 0,
                    label.discontinuous() && (whole || any[1]) ? 1 : 0,
                    poor ? 1 : 0
                },
                frames,
                !poor);
    }

    /** Frames of the head. */
    private int headFrames() {
        return blocks[blocks.length - 1].columnsOut();
    }

    private void blankBands(float[][] shown) {
        int bands = random.nextInt(MOST_BANDS_BLANKED + 1);
        int from = random.nextInt(ChestNet.BANDS - bands + 1);
        for (float[] plane : shown) {
            Arrays.fill(plane, from * FRAMES, (from + bands) * FRAMES, 0);
        }
    }

    private void blankFrames(float[][] shown) {
        int frames = random.nextInt(MOST_FRAMES_BLANKED + 1);
        int from = random.nextInt(FRAMES - frames + 1);
        for (float[] plane : shown) {
            for (int y = 0; y < ChestNet.BANDS; y++) {
                Arrays.fill(plane, y * FRAMES + from, y * FRAMES + from + frames, 0);
            }
        }
    }

    /** Adds a batch's gradients; returns its loss. */
    double learn(Example[] examples) {
        float[][][] planes = Arrays.stream(examples).map(e -> e.image).toArray(float[][][]::new);
        for (ConvolutionBlock block : blocks) {
            block.forward(planes);
            planes = block.out();
        }
        int columns = headFrames();
        float[][][] gradient = new float[examples.length][planes[0].length][planes[0][0].length];
        double loss = 0;
        for (int b = 0; b < examples.length; b++) {
            float[][] in = ChestNet.headIn(planes[b], columns);
            float[][] kept = drop(in);
            NetHead.Seen seen = head.forward(in);
            double[] whole = new double[ChestNet.OUTPUTS];
            float[][] frames = new float[ChestNet.OUTPUTS][columns];
            loss += loss(examples[b], seen, examples.length, whole, frames);
            float[][] before = head.backward(seen, whole, frames);
            for (int k = 0; k < before.length; k++) {
                int to = k % ChestNet.ROWS_LEFT * columns;
                for (int t = 0; t < columns; t++) {
                    gradient[b][k / ChestNet.ROWS_LEFT][to + t] = before[k][t] * kept[k][t];
                }
            }
        }
        for (int k = blocks.length - 1; k >= 0; k--) {
            gradient = blocks[k].backward(gradient, k > 0);
        }
        return loss;
    }

    /** Hides a share of the numbers, and raises the others for it. */
    private float[][] drop(float[][] in) {
        float[][] kept = new float[in.length][in[0].length - 2];
        for (int k = 0; k < in.length; k++) {
            for (int t = 0; t < kept[k].length; t++) {
                kept[k][t] = random.nextDouble() < DROPPED ? 0 : 1 / (1 - DROPPED);
                in[k][t + 1] *= kept[k][t];
            }
        }
        return kept;
    }

    /** Cross-entropy of the answers to what listeners said of the whole and of its frames; each as a mean over all recordings. */
    private static double loss(Example e, NetHead.Seen seen, int batch, double[] whole, float[][] frames) {
        double loss = 0;
        double share = 1.0 / (batch * ChestNet.OUTPUTS);
        for (int m = e.judged ? 0 : ChestNet.POOR_QUALITY; m < ChestNet.OUTPUTS; m++) {
            loss += share * crossEntropy(seen.whole()[m], e.whole[m]);
            whole[m] = share * (Softmax.logistic(seen.whole()[m]) - e.whole[m]);
        }
        double each = e.judged ? 1.0 / (batch * 2 * seen.length()) : 0;
        for (int m = 0; m < 2 && e.judged; m++) {
            for (int t = 0; t < seen.length(); t++) {
                double logit = seen.frames()[m][t];
                loss += each * crossEntropy(logit, e.frames[m][t]);
                frames[m][t] = (float) (each * (Softmax.logistic(logit) - e.frames[m][t]));
            }
        }
        return loss;
    }

    private static double crossEntropy(double logit, double truth) {
        return Math.max(logit, 0) - logit * truth + Math.log1p(Math.exp(-Math.abs(logit)));
    }

    private void update(double rate, int step) {
        for (ConvolutionBlock block : blocks) {
            block.kernels.update(rate, DECAY, step);
            block.gain.update(rate, 0, step);
            block.shift.update(rate, 0, step);
        }
        for (AdamWeights weights : head.all()) {
            weights.update(rate, DECAY, step);
        }
    }

    /** All weights, for tests of their gradients. */
    List<AdamWeights> weights() {
        List<AdamWeights> all = new java.util.ArrayList<>();
        for (ConvolutionBlock block : blocks) {
            all.addAll(List.of(block.kernels, block.gain, block.shift));
        }
        all.addAll(head.all());
        return all;
    }

    /** The net with each normalisation folded into one gain and shift. */
    private ChestNet net() {
        ChestNet.Block[] folded = new ChestNet.Block[blocks.length];
        for (int k = 0; k < folded.length; k++) {
            ConvolutionBlock block = blocks[k];
            float[] scale = new float[block.gain.value.length];
            float[] shift = new float[scale.length];
            for (int o = 0; o < scale.length; o++) {
                scale[o] =
                        (float) (block.gain.value[o] / Math.sqrt(block.runningVariance[o] + ConvolutionBlock.EPSILON));
                shift[o] = block.shift.value[o] - block.runningMean[o] * scale[o];
            }
            folded[k] = new ChestNet.Block(block.kernels.value, scale, shift);
        }
        return new ChestNet(folded, head);
    }
}
