package lungwort.practice;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** First and second heart sounds: short low-frequency rings, the second a little higher and softer (common practice [C]). */
final class HeartSounds {
    private static final double[] FIRST_HZ = {38, 62, 105};
    private static final double[] SECOND_HZ = {52, 85, 135};
    private static final double[] WEIGHTS = {1, 0.6, 0.2};

    private HeartSounds() {}

    static List<Truth.Beat> beats(PracticeScene scene) {
        List<Truth.Beat> beats = new ArrayList<>();
        double perMinute = scene.heart().perMinute();
        if (perMinute == 0) {
            return beats;
        }
        Random random = Draws.stream(scene.seed(), Draws.HEART);
        double cycle = 60 / perMinute;
        double systole = 0.31 * Math.sqrt(cycle / 0.8);
        double at = 0.1 + 0.5 * cycle * random.nextDouble();
        while (at < scene.durationSeconds()) {
            beats.add(new Truth.Beat(at, at + systole));
            at += cycle * (1 + 0.03 * random.nextGaussian());
        }
        return beats;
    }

    static void add(double[] out, PracticeScene scene, List<Truth.Beat> beats) {
        double level = Levels.amplitude(scene.heart().levelDb());
        for (Truth.Beat beat : beats) {
            ring(out, scene.sampleRateHz(), beat.firstSeconds(), FIRST_HZ, 0.13, level);
            ring(out, scene.sampleRateHz(), beat.secondSeconds(), SECOND_HZ, 0.09, 0.7 * level);
        }
    }

    private static void ring(double[] out, int rate, double start, double[] hz, double length, double level) {
        int from = (int) Math.ceil(start * rate);
        int to = (int) Math.min(out.length, Math.ceil((start + length) * rate));
        for (int i = from; i < to; i++) {
            double t = (double) i / rate - start;
            double hump = Math.pow(Math.sin(Math.PI * Math.sqrt(t / length)), 2);
            double sum = 0;
            for (int k = 0; k < hz.length; k++) {
                sum += WEIGHTS[k] * Math.sin(2 * Math.PI * hz[k] * t);
            }
            out[i] += level * hump * sum / 1.5;
        }
    }
}
