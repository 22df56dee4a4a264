package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** Multinomial logistic regression over rank-normal features: softmax of one weighted sum a class. Weights are kept as floats. */
final class LinearSoftmax implements Learner {
    static final String KIND = "linear-softmax";

    private final RankNormal scale;
    private final int classes;
    private final float[] weight;
    private final float[] bias;

    /** @param weight of feature f for class c at {@code c * features + f} */
    LinearSoftmax(RankNormal scale, int classes, float[] weight, float[] bias) {
        this.scale = scale;
        this.classes = classes;
        this.weight = weight;
        this.bias = bias;
    }

    @Override
    public int classes() {
        return classes;
    }

    @Override
    public double[] probabilities(float[] x) {
        float[] z = scale.apply(x);
        double[] score = new double[classes];
        for (int c = 0; c < classes; c++) {
            double sum = bias[c];
            int at = c * z.length;
            for (int f = 0; f < z.length; f++) {
                sum += weight[at + f] * z[f];
            }
            score[c] = sum;
        }
        return Softmax.inPlace(score);
    }

    /** Adds each feature's part of a class's score: its weight times its normal score, so that an average feature adds nothing. */
    void addShares(float[] x, int c, double factor, double[] shares) {
        float[] z = scale.apply(x);
        for (int f = 0; f < z.length; f++) {
            shares[f] += factor * weight[c * z.length + f] * z[f];
        }
    }

    @Override
    public String kind() {
        return KIND;
    }

    @Override
    public void write(DataOutput out) throws IOException {
        scale.write(out);
        out.writeInt(classes);
        Numbers.writeFloats(out, weight);
        Numbers.writeFloats(out, bias);
    }

    static LinearSoftmax read(DataInput in, int features) throws IOException {
        RankNormal scale = RankNormal.read(in, features);
        int classes = Numbers.readCount(in, "classes", 2, 100);
        return new LinearSoftmax(
                scale, classes, Numbers.readFloats(in, classes * features), Numbers.readFloats(in, classes));
    }
}
