package lungwort.practice;

import java.util.List;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.PhaseSpan;

/**
 * The usual breath sound: band-limited turbulence that follows the flow.
 *
 * <p>Noise from 70 Hz that falls by 6 dB an octave above 200 Hz and by 18 above 500 Hz in inspiration (180 and 400 Hz in expiration), which is the course of the usual sound over the
 * chest: most of it below 200-300 Hz, little above 1 kHz (CORSA 2000 describes it so; the corner frequencies are common practice [C]).
 */
final class BreathNoise {
    private BreathNoise() {}

    static void add(double[] out, PracticeScene scene, List<Breath> breaths) {
        if (breaths.isEmpty()) {
            return;
        }
        int rate = scene.sampleRateHz();
        double[] in = colour(Draws.noise(out.length, Draws.stream(scene.seed(), Draws.INSPIRATION)), 200, 500, rate);
        double[] ex = colour(Draws.noise(out.length, Draws.stream(scene.seed(), Draws.EXPIRATION)), 180, 400, rate);
        double inLevel = Levels.amplitude(scene.breath().levelDb());
        double exLevel = inLevel * Levels.amplitude(scene.breath().expirationDb());
        for (Breath breath : breaths) {
            for (PhaseSpan span : breath.phases()) {
                double full = BreathSchedule.fullLength(scene.breath(), breath, span, breaths);
                if (span.phase() == BreathPhase.INSPIRATION) {
                    addPhase(out, in, span, full, inLevel, rate);
                } else if (span.phase() == BreathPhase.EXPIRATION) {
                    addPhase(out, ex, span, full, exLevel, rate);
                }
            }
        }
    }

    private static double[] colour(double[] noise, double firstHz, double secondHz, int rate) {
        Biquad.highPass(70, Math.sqrt(0.5), rate).apply(noise);
        Biquad.slope(firstHz, rate).apply(noise);
        Biquad.lowPass(secondHz, Math.sqrt(0.5), rate).apply(noise);
        return Levels.toRms(noise, 1);
    }

    private static void addPhase(double[] out, double[] noise, PhaseSpan span, double full, double level, int rate) {
        int from = (int) Math.ceil(span.startSeconds() * rate);
        int to = Math.min(out.length, (int) Math.ceil(span.endSeconds() * rate));
        for (int i = from; i < to; i++) {
            double x = ((double) i / rate - span.startSeconds()) / full;
            out[i] += level * flow(span.phase(), x) * noise[i];
        }
    }

    /** Flow over a phase, x in [0, 1], with its highest value 1: a hump in inspiration, early and falling away in expiration. */
    static double flow(BreathPhase phase, double x) {
        if (x <= 0 || x >= 1) {
            return 0;
        }
        if (phase == BreathPhase.INSPIRATION) {
            return Math.pow(Math.sin(Math.PI * x), 0.7);
        }
        double early = Math.pow(x, 0.5) * Math.pow(1 - x, 1.2);
        return early / EXPIRATION_MAX;
    }

    /** Value of x^0.5 (1-x)^1.2 at its maximum, x = 0.5 / 1.7. */
    private static final double EXPIRATION_MAX = Math.pow(0.5 / 1.7, 0.5) * Math.pow(1 - 0.5 / 1.7, 1.2);
}
