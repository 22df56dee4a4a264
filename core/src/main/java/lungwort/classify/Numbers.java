package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import lungwort.BadInput;

/** Arrays of numbers in the learnt part of a model file; on reading every one must be finite. */
final class Numbers {
    private Numbers() {}

    static void writeFloats(DataOutput out, float[] values) throws IOException {
        for (float v : values) {
            out.writeFloat(v);
        }
    }

    static float[] readFloats(DataInput in, int n) throws IOException {
        float[] values = new float[n];
        for (int i = 0; i < n; i++) {
            values[i] = in.readFloat();
            if (!Float.isFinite(values[i])) {
                throw damaged("one of its numbers is not finite");
            }
        }
        return values;
    }

    static double readDouble(DataInput in) throws IOException {
        double value = in.readDouble();
        if (!Double.isFinite(value)) {
            throw damaged("one of its numbers is not finite");
        }
        return value;
    }

    /** Reads a count that must lie in [low, high]. */
    static int readCount(DataInput in, String what, int low, int high) throws IOException {
        int n = in.readInt();
        if (n < low || n > high) {
            throw damaged("%d %s, %d to %d allowed", n, what, low, high);
        }
        return n;
    }

    /** @param how what is wrong, as for {@link String#format(String, Object...)}; values for its places follow */
    static BadInput damaged(String how, Object... values) {
        return BadInput.of("The model file is damaged: " + how + "; fetch or train it again.", values);
    }
}
