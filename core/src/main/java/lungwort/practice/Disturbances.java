package lungwort.practice;

import java.util.Arrays;
import java.util.Random;

/** Renders what spoils a recording: touches, rubbing, talk, music, coughs, dropouts. Rough sketches that have the right bandwidths and rhythms (common practice [C]). */
final class Disturbances {
    private static final double[][] VOWELS_HZ = {
        {700, 1200, 2500}, {400, 1900, 2500}, {350, 800, 2300}, {550, 1000, 2400}
    };
    private static final double[] NOTES_HZ = {261.6, 293.7, 329.6, 392.0, 440.0, 523.3};

    private Disturbances() {}

    static void add(double[] out, AddedSound.Disturbance what, int rate, Random random) {
        int from = (int) Math.ceil(what.startSeconds() * rate);
        int to = (int) Math.min(out.length, Math.ceil(what.endSeconds() * rate));
        if (to <= from) {
            return;
        }
        if (what.kind() == AddedSound.Disturbance.Kind.DROPOUT) {
            Arrays.fill(out, from, to, 0);
            return;
        }
        double[] part = render(what.kind(), to - from, rate, random);
        double level = Levels.amplitude(what.levelDb());
        boolean peak =
                what.kind() == AddedSound.Disturbance.Kind.CLICK || what.kind() == AddedSound.Disturbance.Kind.THUMP;
        part = peak ? Levels.toPeak(part, level) : Levels.toRms(part, level);
        for (int i = 0; i < part.length; i++) {
            out[from + i] += part[i];
        }
    }

    private static double[] render(AddedSound.Disturbance.Kind kind, int length, int rate, Random random) {
        return switch (kind) {
            case CLICK -> click(length, rate, random);
            case THUMP -> thump(length, rate, random);
            case RUB -> rub(length, rate, random);
            case SPEECH -> speech(length, rate, random);
            case MUSIC -> music(length, rate, random);
            case COUGH -> cough(length, rate, random);
            case DROPOUT -> new double[length];
        };
    }

    private static double[] click(int length, int rate, Random random) {
        double[] out = new double[length];
        for (int i = 0; i < length; i++) {
            double t = (double) i / rate;
            out[i] = random.nextGaussian() * (Math.exp(-t / 0.0004) + 0.03 * Math.exp(-t / 0.004));
        }
        out[0] = 1.5;
        return out;
    }

    private static double[] thump(int length, int rate, Random random) {
        double[] out = new double[length];
        double hz = 45 + 30 * random.nextDouble();
        for (int i = 0; i < length; i++) {
            double t = (double) i / rate;
            out[i] = Math.exp(-t / 0.04) * Math.sin(2 * Math.PI * hz * t)
                    + 0.6 * random.nextGaussian() * Math.exp(-t / 0.003)
                    + 0.08 * random.nextGaussian() * Math.exp(-t / 0.03);
        }
        return out;
    }

    private static double[] rub(int length, int rate, Random random) {
        double[] out = Draws.noise(length, random);
        Biquad.slope(900, rate).apply(out);
        double[] slow = Draws.noise(length, random);
        Biquad.lowPass(18, Math.sqrt(0.5), rate).apply(slow);
        Levels.toRms(slow, 1);
        for (int i = 0; i < length; i++) {
            out[i] *= slow[i] * slow[i] * Math.sin(Math.PI * (i + 0.5) / length);
        }
        return out;
    }

    private static double[] speech(int length, int rate, Random random) {
        double[] out = new double[length];
        double pitch = 105 + 100 * random.nextDouble();
        int at = 0;
        while (at < length) {
            int syllable = (int) (rate * (0.14 + 0.12 * random.nextDouble()));
            int end = Math.min(length, at + syllable);
            double[] source = pulses(end - at, pitch * (0.9 + 0.25 * random.nextDouble()), rate, random);
            double[] spoken = formants(source, VOWELS_HZ[random.nextInt(VOWELS_HZ.length)], rate);
            for (int i = at; i < end; i++) {
                out[i] += spoken[i - at] * Math.pow(Math.sin(Math.PI * (i - at + 0.5) / syllable), 0.5);
            }
            at = end + (int) (rate * (0.02 + 0.06 * random.nextDouble()));
        }
        return out;
    }

    private static double[] pulses(int length, double hz, int rate, Random random) {
        double[] out = new double[length];
        double phase = 1;
        for (int i = 0; i < length; i++) {
            phase += hz * (1 - 0.15 * i / length) / rate;
            out[i] = 0.02 * random.nextGaussian();
            if (phase >= 1) {
                phase -= 1;
                out[i] += 1;
            }
        }
        return Biquad.slope(300, rate).apply(out);
    }

    private static double[] formants(double[] source, double[] hz, int rate) {
        double[] out = new double[source.length];
        double[] weights = {1, 0.5, 0.2};
        for (int k = 0; k < hz.length; k++) {
            if (hz[k] < 0.45 * rate) {
                double[] band = Biquad.bandPass(hz[k], 8, rate).apply(source.clone());
                for (int i = 0; i < out.length; i++) {
                    out[i] += weights[k] * band[i];
                }
            }
        }
        return out;
    }

    private static double[] music(int length, int rate, Random random) {
        double[] out = new double[length];
        int note = (int) (0.3 * rate);
        for (int at = 0; at < length; at += note) {
            double hz = NOTES_HZ[random.nextInt(NOTES_HZ.length)];
            for (int i = at; i < Math.min(length, at + note); i++) {
                double t = (double) (i - at) / rate;
                double decay = Math.exp(-t / 0.25) * Math.min(1, t / 0.01);
                out[i] = decay * (Math.sin(2 * Math.PI * hz * t) + 0.4 * Math.sin(4 * Math.PI * hz * t));
            }
        }
        return out;
    }

    private static double[] cough(int length, int rate, Random random) {
        double[] out = Draws.noise(length, random);
        Biquad.slope(1200, rate).apply(out);
        Levels.toRms(out, 1);
        double[] voiced = formants(pulses(length, 240, rate, random), VOWELS_HZ[0], rate);
        Levels.toRms(voiced, 1);
        for (int i = 0; i < length; i++) {
            double x = (double) i / length;
            double burst = Math.min(1, x / 0.03) * Math.exp(-x / 0.15);
            double tail = x > 0.4 ? 0.5 * Math.sin(Math.PI * (x - 0.4) / 0.6) : 0;
            out[i] = out[i] * (burst + 0.15 * tail) + voiced[i] * tail;
        }
        return out;
    }
}
