package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * The mean of several small multilayer perceptrons (one hidden layer of rectifiers, softmax) over rank-normal features.
 *
 * <p>Rumelhart, Hinton and Williams 1986; rectifiers: Glorot et al. 2011. Weights are kept as floats.
 */
final class Perceptron implements Learner {
    static final String KIND = "perceptron";

    /**
     * One net.
     *
     * @param in weight from feature f to hidden unit h at {@code f * hidden + h}
     * @param hiddenBias bias of each hidden unit
     * @param out weight from hidden unit h to class c at {@code h * classes + c}
     * @param outBias bias of each class
     */
    record Net(float[] in, float[] hiddenBias, float[] out, float[] outBias) {}

    private final RankNormal scale;
    private final int classes;
    private final int hidden;
    private final Net[] nets;

    Perceptron(RankNormal scale, int classes, int hidden, Net[] nets) {
        this.scale = scale;
        this.classes = classes;
        this.hidden = hidden;
        this.nets = nets;
    }

    @Override
    public int classes() {
        return classes;
    }

    @Override
    public double[] probabilities(float[] x) {
        float[] z = scale.apply(x);
        double[] sum = new double[classes];
        for (Net net : nets) {
            double[] p = forward(net, z);
            for (int c = 0; c < classes; c++) {
                sum[c] += p[c] / nets.length;
            }
        }
        return sum;
    }

    private double[] forward(Net net, float[] z) {
        float[] h = net.hiddenBias.clone();
        for (int f = 0; f < z.length; f++) {
            float v = z[f];
            int at = f * hidden;
            for (int j = 0; j < hidden; j++) {
                h[j] += v * net.in[at + j];
            }
        }
        double[] score = new double[classes];
        for (int c = 0; c < classes; c++) {
            float s = net.outBias[c];
            for (int j = 0; j < hidden; j++) {
                s += Math.max(0, h[j]) * net.out[j * classes + c];
            }
            score[c] = s;
        }
        return Softmax.inPlace(score);
    }

    @Override
    public String kind() {
        return KIND;
    }

    @Override
    public void write(DataOutput out) throws IOException {
        scale.write(out);
        out.writeInt(classes);
        out.writeInt(hidden);
        out.writeInt(nets.length);
        for (Net net : nets) {
            Numbers.writeFloats(out, net.in);
            Numbers.writeFloats(out, net.hiddenBias);
            Numbers.writeFloats(out, net.out);
            Numbers.writeFloats(out, net.outBias);
        }
    }

    static Perceptron read(DataInput in, int features) throws IOException {
        RankNormal scale = RankNormal.read(in, features);
        int classes = Numbers.readCount(in, "classes", 2, 100);
        int hidden = Numbers.readCount(in, "hidden units", 1, 1024);
        Net[] nets = new Net[Numbers.readCount(in, "nets", 1, 100)];
        for (int i = 0; i < nets.length; i++) {
            nets[i] = new Net(
                    Numbers.readFloats(in, features * hidden),
                    Numbers.readFloats(in, hidden),
                    Numbers.readFloats(in, hidden * classes),
                    Numbers.readFloats(in, classes));
        }
        return new Perceptron(scale, classes, hidden, nets);
    }
}
