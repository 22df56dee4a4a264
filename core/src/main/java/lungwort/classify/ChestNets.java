package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Several {@link ChestNet}s that learnt the same from different beginnings: the mean of what they say errs less than one (Hansen and Salamon 1990). */
final class ChestNets {
    private static final int MOST = 32;

    private final List<ChestNet> nets;

    /** @param nets at least one */
    ChestNets(List<ChestNet> nets) {
        this.nets = List.copyOf(nets);
    }

    List<ChestNet> nets() {
        return nets;
    }

    /** The mean of {@link ChestNet#logits}. */
    double[] logits(float[][] image) {
        return look(image).logits();
    }

    /** The mean of the nets' logits, of the whole and moment by moment; for each question the place that the net points at whose yes is the loudest. */
    NetLook look(float[][] image) {
        double[] logits = new double[ChestNet.OUTPUTS];
        double[] loudest = new double[ChestNet.OUTPUTS];
        Arrays.fill(loudest, Double.NEGATIVE_INFINITY);
        double[] seconds = new double[ChestNet.OUTPUTS];
        float[][] frames = new float[ChestNet.POOR_QUALITY][image[0].length];
        for (ChestNet net : nets) {
            NetLook look = net.look(image);
            for (int m = 0; m < ChestNet.OUTPUTS; m++) {
                logits[m] += look.logits()[m] / nets.size();
                if (look.logits()[m] > loudest[m]) {
                    loudest[m] = look.logits()[m];
                    seconds[m] = look.seconds()[m];
                }
            }
            for (int m = 0; m < frames.length; m++) {
                for (int f = 0; f < frames[m].length; f++) {
                    frames[m][f] += look.frames()[m][f] / nets.size();
                }
            }
        }
        return new NetLook(logits, seconds, frames);
    }

    void write(DataOutput out) throws IOException {
        out.writeInt(nets.size());
        for (ChestNet net : nets) {
            net.write(out);
        }
    }

    static ChestNets read(DataInput in) throws IOException {
        int count = Numbers.readCount(in, "nets", 1, MOST);
        List<ChestNet> nets = new ArrayList<>();
        for (int k = 0; k < count; k++) {
            nets.add(ChestNet.read(in));
        }
        return new ChestNets(nets);
    }
}
