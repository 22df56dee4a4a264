package lungwort.classify;

import java.util.SplittableRandom;

/** A random order, each as likely as any other (Fisher and Yates; Durstenfeld 1964). */
final class Shuffle {
    private Shuffle() {}

    static void inPlace(int[] order, SplittableRandom random) {
        for (int i = order.length - 1; i > 0; i--) {
            int j = random.nextInt(i + 1);
            int t = order[i];
            order[i] = order[j];
            order[j] = t;
        }
    }
}
