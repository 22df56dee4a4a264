package lungwort.audio;

import java.util.Arrays;

/** One channel of a FLAC frame (RFC 9639 sections 9.2 and 9.2.7). */
final class FlacSubframe {
    private static final int FIRST_FIXED = 8;
    private static final int LAST_FIXED = 12;
    private static final int FIRST_LINEAR = 32;

    private FlacSubframe() {}

    /** Decodes into {@code x[0 .. length)}. */
    static void decode(BitReader in, long[] x, int length, int sampleBits) {
        int padding = (int) in.bits(1);
        int type = (int) in.bits(6);
        int wasted = in.bits(1) == 1 ? in.unary() + 1 : 0;
        int bits = sampleBits - wasted;
        if (padding != 0 || bits < 1) {
            throw new FlacFrame.Damaged("a channel's header makes no sense");
        }
        if (type == 0) {
            Arrays.fill(x, 0, length, in.signed(bits));
        } else if (type == 1) {
            for (int i = 0; i < length; i++) {
                x[i] = in.signed(bits);
            }
        } else if (type >= FIRST_FIXED && type <= LAST_FIXED) {
            fixed(in, x, length, bits, type - FIRST_FIXED);
        } else if (type >= FIRST_LINEAR) {
            linear(in, x, length, bits, type - FIRST_LINEAR + 1);
        } else {
            throw new FlacFrame.Damaged("a channel is coded in a reserved way");
        }
        for (int i = 0; wasted > 0 && i < length; i++) {
            x[i] <<= wasted;
        }
    }

    private static void fixed(BitReader in, long[] x, int length, int bits, int order) {
        warmUp(in, x, length, bits, order);
        residual(in, x, length, order);
        predict(x, length, FlacFrame.fixedCoefficients(order), 0);
    }

    private static void linear(BitReader in, long[] x, int length, int bits, int order) {
        warmUp(in, x, length, bits, order);
        int precision = (int) in.bits(4) + 1;
        int shift = (int) in.signed(5);
        if (precision == 16 || shift < 0) {
            throw new FlacFrame.Damaged("a predictor makes no sense");
        }
        int[] coefficients = new int[order];
        for (int i = 0; i < order; i++) {
            coefficients[i] = (int) in.signed(precision);
        }
        residual(in, x, length, order);
        predict(x, length, coefficients, shift);
    }

    private static void warmUp(BitReader in, long[] x, int length, int bits, int order) {
        if (order > length) {
            throw new FlacFrame.Damaged("a predictor is longer than its frame");
        }
        for (int i = 0; i < order; i++) {
            x[i] = in.signed(bits);
        }
    }

    /** Turns residuals into samples, in place. */
    private static void predict(long[] x, int length, int[] coefficients, int shift) {
        int order = coefficients.length;
        for (int i = order; i < length; i++) {
            long sum = 0;
            for (int k = 0; k < order; k++) {
                sum += coefficients[k] * x[i - 1 - k];
            }
            x[i] += sum >> shift;
        }
    }

    /** Rice-coded partitions; those with the escape parameter hold plain numbers. */
    private static void residual(BitReader in, long[] x, int length, int order) {
        int method = (int) in.bits(2);
        if (method > 1) {
            throw new FlacFrame.Damaged("residuals are coded in a reserved way");
        }
        int parameterBits = 4 + method;
        int escape = (1 << parameterBits) - 1;
        int partitionOrder = (int) in.bits(4);
        int partition = length >> partitionOrder;
        if (partition << partitionOrder != length || partition < order) {
            throw new FlacFrame.Damaged("partitions do not fit their frame");
        }
        int at = order;
        for (int p = 1; p <= 1 << partitionOrder; p++) {
            int parameter = (int) in.bits(parameterBits);
            int end = p * partition;
            if (parameter == escape) {
                int width = (int) in.bits(5);
                for (; at < end; at++) {
                    x[at] = in.signed(width);
                }
            } else {
                for (; at < end; at++) {
                    long folded = (long) in.unary() << parameter | in.bits(parameter);
                    x[at] = folded >>> 1 ^ -(folded & 1);
                }
            }
        }
    }
}
