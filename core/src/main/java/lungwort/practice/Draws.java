package lungwort.practice;

import java.util.Random;

/** Independent random streams from one seed, so that one part of a scene never shifts the draws of another. */
final class Draws {
    static final int SCHEDULE = 1;
    static final int INSPIRATION = 2;
    static final int EXPIRATION = 3;
    static final int ROOM = 4;
    static final int HEART = 5;
    static final int TRAIN = 6;
    static final int ADDED = 100;

    private Draws() {}

    static Random stream(long seed, int part) {
        long mixed = (seed + 0x9E3779B97F4A7C15L * (part + 1)) * 0xBF58476D1CE4E5B9L;
        return new Random(mixed ^ (mixed >>> 31));
    }

    /** White Gaussian noise of unit variance. */
    static double[] noise(int length, Random random) {
        double[] out = new double[length];
        for (int i = 0; i < length; i++) {
            out[i] = random.nextGaussian();
        }
        return out;
    }
}
