package lungwort.heart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.heart.HeartBeats.Beat;
import lungwort.heart.HeartBeats.Rate;
import lungwort.signal.Autocorrelation;
import lungwort.signal.Envelope;
import lungwort.signal.Statistics;

/**
 * Finds the beats of the heart: period by autocorrelation of the heart band's level, beats by dynamic programming that rewards loud moments a period apart
 * (Ellis, J New Music Res 2007).
 */
public final class HeartFinder {
    /** Slowest and fastest heart that is looked for, in beats a minute. */
    static final double MIN_RATE = 40;

    static final double MAX_RATE = 210;

    private static final double MIN_SECONDS = 3;

    /** Rhythms below this height of autocorrelation are not believed. */
    private static final double MIN_RHYTHM = 0.15;

    /** Height of autocorrelation from which confidence is full. */
    private static final double FULL_RHYTHM = 0.55;

    /** How strongly an uneven step is punished: squared log of step over period, times this. */
    private static final double TIGHTNESS = 40;

    private HeartFinder() {}

    /** The beats of a recording; {@link HeartBeats#NONE} where no rhythm is heard. */
    public static HeartBeats find(Recording recording) {
        return find(HeartCurve.of(recording));
    }

    /** As {@link #find(Recording)}, from a curve. */
    public static HeartBeats find(HeartCurve curve) {
        double[] levels = curve.levelsDb();
        if (levels.length * HeartCurve.HOP_SECONDS < MIN_SECONDS) {
            return HeartBeats.NONE;
        }
        double[] onset = prominence(levels);
        double[] rhythm = Autocorrelation.unbiased(onset, Math.min(onset.length - 1, frames(60 / MIN_RATE) + 2));
        double period = period(rhythm);
        if (Double.isNaN(period)) {
            return HeartBeats.NONE;
        }
        double height = rhythm[(int) Math.round(period)];
        if (height < MIN_RHYTHM) {
            return HeartBeats.NONE;
        }
        return beats(curve, onset, period, Math.min(1, (height - MIN_RHYTHM) / (FULL_RHYTHM - MIN_RHYTHM)));
    }

    private static int frames(double seconds) {
        return (int) Math.round(seconds / HeartCurve.HOP_SECONDS);
    }

    /** How far each moment stands above the second around it, in dB, limited so that one thump does not outweigh all beats. */
    private static double[] prominence(double[] levels) {
        double[] slow = Envelope.smoothed(levels, frames(1.0));
        double[] fast = Envelope.smoothed(levels, 3);
        double[] over = new double[levels.length];
        Arrays.setAll(over, i -> Math.max(-6, Math.min(18, fast[i] - slow[i])));
        return over;
    }

    /**
     * The lag whose own height and that of its double are highest together. Systole is shorter than diastole, so the distance from first to second heart sound gives a
     * lower peak, and its double none.
     */
    private static double period(double[] rhythm) {
        double best = Double.NaN;
        double bestHeight = 0;
        for (int lag = frames(60 / MAX_RATE); lag <= Math.min(frames(60 / MIN_RATE), rhythm.length - 2); lag++) {
            boolean peak = rhythm[lag] > rhythm[lag - 1] && rhythm[lag] >= rhythm[lag + 1];
            double twice = 2 * lag < rhythm.length ? highest(rhythm, 2 * lag - 2, 2 * lag + 2) : rhythm[lag];
            double height = rhythm[lag] + 0.5 * twice;
            if (peak && height > 1.15 * bestHeight) {
                bestHeight = height;
                best = lag;
            }
        }
        return best;
    }

    private static double highest(double[] x, int from, int to) {
        double top = x[from];
        for (int i = from; i <= Math.min(to, x.length - 1); i++) {
            top = Math.max(top, x[i]);
        }
        return top;
    }

    private static HeartBeats beats(HeartCurve curve, double[] onset, double period, double confidence) {
        List<Integer> frames = chain(onset, period);
        List<Beat> beats = new ArrayList<>();
        for (int frame : frames) {
            beats.add(new Beat(curve.secondsOf(frame), onset[frame]));
        }
        double[] steps = new double[Math.max(1, frames.size() - 1)];
        Arrays.fill(steps, period);
        for (int i = 0; i + 1 < frames.size(); i++) {
            steps[i] = frames.get(i + 1) - frames.get(i);
        }
        double rate = 60 / (Statistics.median(steps) * HeartCurve.HOP_SECONDS);
        double prominence =
                Statistics.median(beats.stream().mapToDouble(Beat::prominenceDb).toArray());
        return new HeartBeats(beats, new Rate(rate, confidence), prominence);
    }

    /** The chain of frames with the highest sum of prominence less what uneven steps cost. */
    private static List<Integer> chain(double[] onset, double period) {
        double[] score = new double[onset.length];
        int[] before = new int[onset.length];
        for (int t = 0; t < onset.length; t++) {
            before[t] = -1;
            double top = 0;
            for (int from = Math.max(0, t - (int) (1.6 * period)); from <= t - (int) (0.6 * period); from++) {
                double uneven = Math.log((t - from) / period);
                double value = score[from] - TIGHTNESS * uneven * uneven;
                if (value > top) {
                    top = value;
                    before[t] = from;
                }
            }
            score[t] = top + onset[t];
        }
        int at = 0;
        for (int t = Math.max(0, onset.length - (int) period); t < onset.length; t++) {
            at = score[t] > score[at] || at < onset.length - (int) period ? t : at;
        }
        List<Integer> chain = new ArrayList<>();
        for (int t = at; t >= 0; t = before[t]) {
            chain.add(t);
        }
        Collections.reverse(chain);
        return chain;
    }
}
