package lungwort.classify;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;

/**
 * The end of a {@link ChestNet}: a convolution along time over all planes and bands, then for each question a logit for each frame, and their mean weighted by an attention of its own (Ilse, Tomczak and
 * Welling 2018: which frames count is learnt). Works on one recording at a time.
 */
final class NetHead {
    private static final int TAPS = 3;

    final int inputs;
    final int hidden;
    final int questions;

    /** Weight of input {@code k}, tap {@code s} for hidden unit {@code j} at {@code (j * inputs + k) * 3 + s}. */
    final AdamWeights along;

    final AdamWeights alongBias;

    /** Of question {@code m} and hidden unit {@code j} at {@code m * hidden + j}. */
    final AdamWeights asked;

    final AdamWeights askedBias;

    /** As {@link #asked}; attention needs no bias. */
    final AdamWeights attended;

    NetHead(int inputs, int hidden, int questions, SplittableRandom random) {
        this.inputs = inputs;
        this.hidden = hidden;
        this.questions = questions;
        along = new AdamWeights(hidden * inputs * TAPS, Math.sqrt(2.0 / (inputs * TAPS)), random);
        alongBias = new AdamWeights(hidden, 0, random);
        asked = new AdamWeights(questions * hidden, Math.sqrt(1.0 / hidden), random);
        askedBias = new AdamWeights(questions, 0, random);
        attended = new AdamWeights(questions * hidden, Math.sqrt(1.0 / hidden), random);
    }

    /** All weights, always in the same order. */
    List<AdamWeights> all() {
        return List.of(along, alongBias, asked, askedBias, attended);
    }

    /**
     * What one recording gives.
     *
     * @param in padded by one zero at both ends, shape {@code [inputs][frames + 2]}
     * @param units hidden units after the rectifier, shape {@code [hidden][frames]}
     * @param frames logits, shape {@code [questions][frames]}
     * @param attention shape {@code [questions][frames]}, each sums to 1
     * @param whole logits of the recording, shape {@code [questions]}
     */
    @SuppressWarnings("ArrayRecordComponent") // numbers on their way, never compared
    record Seen(float[][] in, float[][] units, float[][] frames, float[][] attention, double[] whole) {
        int length() {
            return frames[0].length;
        }

        /** The frame that speaks most for yes to a question. */
        int mostAt(int question) {
            int most = 0;
            for (int t = 1; t < length(); t++) {
                most = said(question, t) > said(question, most) ? t : most;
            }
            return most;
        }

        private float said(int question, int t) {
            return attention[question][t] * frames[question][t];
        }
    }

    /** @param in shape {@code [inputs][frames + 2]}, zero at both ends */
    Seen forward(float[][] in) {
        int length = in[0].length - 2;
        float[][] units = new float[hidden][length];
        for (int j = 0; j < hidden; j++) {
            Arrays.fill(units[j], alongBias.value[j]);
            for (int k = 0; k < inputs; k++) {
                add(in[k], along.value, (j * inputs + k) * TAPS, units[j]);
            }
            for (int t = 0; t < length; t++) {
                units[j][t] = Math.max(0, units[j][t]);
            }
        }
        float[][] frames = new float[questions][length];
        float[][] attention = new float[questions][length];
        double[] whole = new double[questions];
        for (int m = 0; m < questions; m++) {
            Arrays.fill(frames[m], askedBias.value[m]);
            for (int j = 0; j < hidden; j++) {
                addScaled(asked.value[m * hidden + j], units[j], frames[m]);
                addScaled(attended.value[m * hidden + j], units[j], attention[m]);
            }
            softmax(attention[m]);
            for (int t = 0; t < length; t++) {
                whole[m] += (double) attention[m][t] * frames[m][t];
            }
        }
        return new Seen(in, units, frames, attention, whole);
    }

    /**
     * Adds to the gradients of the weights.
     *
     * @param wholeGradient of the recording's logits, shape {@code [questions]}
     * @param framesGradient of the frames' logits, shape {@code [questions][frames]}; what the recording's logits give is added to it
     * @return the gradient of the planes in, shape {@code [inputs][frames]}
     */
    float[][] backward(Seen seen, double[] wholeGradient, float[][] framesGradient) {
        int length = seen.length();
        float[][] units = new float[hidden][length];
        for (int m = 0; m < questions; m++) {
            float[] byAttention = new float[length];
            float g = (float) wholeGradient[m];
            for (int t = 0; t < length; t++) {
                float weighted = g * seen.attention[m][t];
                framesGradient[m][t] += weighted;
                byAttention[t] = weighted * (float) (seen.frames[m][t] - seen.whole[m]);
                askedBias.gradient[m] += framesGradient[m][t];
            }
            for (int j = 0; j < hidden; j++) {
                asked.gradient[m * hidden + j] += dot(framesGradient[m], seen.units[j]);
                attended.gradient[m * hidden + j] += dot(byAttention, seen.units[j]);
                addScaled(asked.value[m * hidden + j], framesGradient[m], units[j]);
                addScaled(attended.value[m * hidden + j], byAttention, units[j]);
            }
        }
        float[][] before = new float[inputs][length];
        float[] padded = new float[length + 2];
        for (int j = 0; j < hidden; j++) {
            for (int t = 0; t < length; t++) {
                padded[t + 1] = seen.units[j][t] > 0 ? units[j][t] : 0;
                alongBias.gradient[j] += padded[t + 1];
            }
            for (int k = 0; k < inputs; k++) {
                int at = (j * inputs + k) * TAPS;
                for (int s = 0; s < TAPS; s++) {
                    along.gradient[at + s] += dotShifted(padded, seen.in[k], s);
                }
                addFlipped(padded, along.value, at, before[k]);
            }
        }
        return before;
    }

    private static void add(float[] in, float[] w, int at, float[] out) {
        float w0 = w[at];
        float w1 = w[at + 1];
        float w2 = w[at + 2];
        for (int t = 0; t < out.length; t++) {
            out[t] += w0 * in[t] + w1 * in[t + 1] + w2 * in[t + 2];
        }
    }

    private static void addFlipped(float[] in, float[] w, int at, float[] out) {
        float w0 = w[at + 2];
        float w1 = w[at + 1];
        float w2 = w[at];
        for (int t = 0; t < out.length; t++) {
            out[t] += w0 * in[t] + w1 * in[t + 1] + w2 * in[t + 2];
        }
    }

    private static void addScaled(float factor, float[] from, float[] to) {
        for (int t = 0; t < to.length; t++) {
            to[t] += factor * from[t];
        }
    }

    private static float dot(float[] a, float[] b) {
        return dot(a, 0, b, 0, a.length);
    }

    /** Over frames {@code t}: the padded gradient at {@code t} by the padded input at {@code t + shift - 1}. */
    private static float dotShifted(float[] gradient, float[] in, int shift) {
        return dot(gradient, 1, in, shift, gradient.length - 2);
    }

    /** In four sums, none of which waits for another. */
    private static float dot(float[] a, int from, float[] b, int other, int length) {
        float s0 = 0;
        float s1 = 0;
        float s2 = 0;
        float s3 = 0;
        int t = 0;
        for (; t + 3 < length; t += 4) {
            s0 += a[from + t] * b[other + t];
            s1 += a[from + t + 1] * b[other + t + 1];
            s2 += a[from + t + 2] * b[other + t + 2];
            s3 += a[from + t + 3] * b[other + t + 3];
        }
        for (; t < length; t++) {
            s0 += a[from + t] * b[other + t];
        }
        return (s0 + s1) + (s2 + s3);
    }

    private static void softmax(float[] a) {
        float most = Float.NEGATIVE_INFINITY;
        for (float v : a) {
            most = Math.max(most, v);
        }
        double sum = 0;
        for (int t = 0; t < a.length; t++) {
            a[t] = (float) Math.exp(a[t] - most);
            sum += a[t];
        }
        for (int t = 0; t < a.length; t++) {
            a[t] /= (float) sum;
        }
    }
}
