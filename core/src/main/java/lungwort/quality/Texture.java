package lungwort.quality;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import lungwort.signal.Autocorrelation;
import lungwort.signal.Envelope;
import lungwort.signal.Statistics;

/** Numbers that tell what a recording is like as a whole, beside those that the verdict uses: features of its quality. */
final class Texture {
    private static final double SMOOTH_SECONDS = 0.25;
    private static final double SLOW_SECONDS = 0.8;
    private static final double AROUND_SECONDS = 0.4;

    /** Bands in which breath is told best. */
    private static final int BREATH_FROM = 3;

    private static final int BREATH_TO = 9;

    /** Half-way to a chest piece that was lifted, in dB. */
    private static final double SUNK_DB = 14;

    private static final double VOICED = 0.5;
    private static final double VOICED_OVER_DB = 5;
    private static final double SHORTEST_BREATH_SECONDS = 0.8;
    private static final double LONGEST_BREATH_SECONDS = 6;

    private final List<FrameTrack.Frame> frames;
    private final Curves curves;
    private final Map<String, Double> numbers = new LinkedHashMap<>();

    private Texture(List<FrameTrack.Frame> frames, Curves curves) {
        this.frames = frames;
        this.curves = curves;
    }

    /**
     * Name and value, in an order that never changes; values are finite.
     *
     * <p>Per band {@code 100-150} Hz and so on: {@code floor}, {@code usual}, {@code loud}, {@code top} (10th, 50th, 90th, 99th percentile of the level, dB re full scale squared per Hz), {@code tonal} (90th
     * percentile of mean over median power, dB), {@code slow} (share of the movement of the level that is slower than 0.8 s), {@code spread} (90th less 10th percentile of the smoothed level, dB).
     */
    static Map<String, Double> of(List<FrameTrack.Frame> frames, Curves curves, double flux) {
        Texture texture = new Texture(frames, curves);
        texture.bands();
        texture.whole();
        texture.numbers.put("flux", flux);
        texture.together();
        texture.voiced();
        texture.rhythm();
        return texture.numbers;
    }

    private void bands() {
        for (int b = 0; b < FrameTrack.BANDS; b++) {
            int band = b;
            String name = bandName(b);
            double[] p = percentiles(f -> f.meanDb()[band], 10, 50, 90, 99);
            numbers.put("floor " + name, p[0]);
            numbers.put("usual " + name, p[1]);
            numbers.put("loud " + name, p[2]);
            numbers.put("top " + name, p[3]);
            numbers.put("tonal " + name, percentiles(f -> f.meanDb()[band] - f.medianDb()[band], 90)[0]);
            double[] smooth = smooth(column(f -> f.medianDb()[band]));
            numbers.put("slow " + name, slow(smooth));
            numbers.put("spread " + name, spread(smooth));
        }
    }

    static String bandName(int band) {
        return String.format(Locale.ROOT, "%.0f-%.0f", FrameTrack.EDGES_HZ[band], FrameTrack.EDGES_HZ[band + 1]);
    }

    private void whole() {
        double[] flatness = percentiles(FrameTrack.Frame::flatnessDb, 10, 50);
        numbers.put("flatness low", flatness[0]);
        numbers.put("flatness", flatness[1]);
        double[] centroid = percentiles(FrameTrack.Frame::centroidHz, 10, 50, 90);
        numbers.put("centroid low", centroid[0]);
        numbers.put("centroid", centroid[1]);
        numbers.put("centroid high", centroid[2]);
        double[] harmonic = percentiles(f -> f.voice().harmonicity(), 50, 75, 90);
        numbers.put("harmonicity", harmonic[0]);
        numbers.put("harmonicity high", harmonic[1]);
        numbers.put("harmonicity top", harmonic[2]);
        double[] over = around(curves.wide());
        numbers.put("clicks", share(over, 6));
        numbers.put("loud clicks", share(over, 12));
        double[] level =
                curves.wide().length == 0 ? new double[4] : Statistics.percentiles(curves.wide(), 10, 50, 90, 99);
        numbers.put("level spread", level[2] - level[0]);
        numbers.put("level top", level[3] - level[1]);
        double[] rough = Curves.roughness(curves.wide(), 1);
        numbers.put("roughness", rough.length == 0 ? 0 : Statistics.median(rough));
        numbers.put("sunk", LiftFinder.share(curves.low(), SUNK_DB));
        numbers.put("harmonic rows", share(column(f -> f.talk().salienceDb()), TalkFinder.MIN_SALIENCE_DB));
    }

    private double[] column(ToDoubleFunction<FrameTrack.Frame> of) {
        return frames.stream().mapToDouble(of).toArray();
    }

    private double[] percentiles(ToDoubleFunction<FrameTrack.Frame> of, double... percents) {
        return frames.isEmpty() ? new double[percents.length] : Statistics.percentiles(column(of), percents);
    }

    /** Mean correlation of the bands' smoothed levels with the level of the middle bands: high where breath moves them all. */
    private void together() {
        double[] middle = smooth(curves.middle());
        double sum = 0;
        for (int b = BREATH_FROM; b < BREATH_TO; b++) {
            int band = b;
            sum += correlation(middle, smooth(column(f -> f.medianDb()[band])));
        }
        numbers.put("together", sum / (BREATH_TO - BREATH_FROM));
    }

    private void voiced() {
        for (int harmonics = 1; harmonics <= 4; harmonics++) {
            int n = 0;
            for (int t = 0; t < frames.size(); t++) {
                Voicing.Voice voice = frames.get(t).voice();
                boolean loud = curves.wideOver()[t] > VOICED_OVER_DB;
                n += loud && voice.harmonicity() > VOICED && voice.harmonics() >= harmonics ? 1 : 0;
            }
            numbers.put("voiced " + harmonics, frames.isEmpty() ? 0 : (double) n / frames.size());
        }
    }

    /** Highest and lowest autocorrelation of the middle bands' smoothed level at the distances of breaths. */
    private void rhythm() {
        double[] middle = smooth(curves.middle());
        int last = Math.min(frames(LONGEST_BREATH_SECONDS), 2 * middle.length / 3);
        double highest = 0;
        double lowest = 0;
        if (last > frames(SHORTEST_BREATH_SECONDS)) {
            double[] r = Autocorrelation.unbiased(middle, last);
            for (int lag = frames(SHORTEST_BREATH_SECONDS); lag <= last; lag++) {
                highest = Math.max(highest, r[lag]);
                lowest = Math.min(lowest, r[lag]);
            }
        }
        numbers.put("rhythm", highest);
        numbers.put("rhythm dip", lowest);
    }

    private static double correlation(double[] x, double[] y) {
        double meanX = Statistics.mean(x);
        double meanY = Statistics.mean(y);
        double xy = 0;
        double xx = 1e-9;
        double yy = 1e-9;
        for (int t = 0; t < x.length; t++) {
            xy += (x[t] - meanX) * (y[t] - meanY);
            xx += (x[t] - meanX) * (x[t] - meanX);
            yy += (y[t] - meanY) * (y[t] - meanY);
        }
        return xy / Math.sqrt(xx * yy);
    }

    private static double[] smooth(double[] level) {
        return Envelope.smoothed(level, frames(SMOOTH_SECONDS));
    }

    private static double slow(double[] smooth) {
        double[] slow = Envelope.smoothed(smooth, frames(SLOW_SECONDS));
        return smooth.length == 0
                ? 0
                : Statistics.standardDeviation(slow) / (Statistics.standardDeviation(smooth) + 1e-6);
    }

    private static double spread(double[] smooth) {
        if (smooth.length == 0) {
            return 0;
        }
        double[] ends = Statistics.percentiles(smooth, 10, 90);
        return ends[1] - ends[0];
    }

    /** Level over the median of the frames around. */
    private static double[] around(double[] level) {
        int half = frames(AROUND_SECONDS) / 2;
        double[] over = new double[level.length];
        for (int t = 0; t < level.length; t++) {
            over[t] = level[t]
                    - Statistics.median(
                            Arrays.copyOfRange(level, Math.max(0, t - half), Math.min(level.length, t + half + 1)));
        }
        return over;
    }

    private static double share(double[] x, double limit) {
        return x.length == 0
                ? 0
                : (double) Arrays.stream(x).filter(v -> v > limit).count() / x.length;
    }

    private static int frames(double seconds) {
        return (int) Math.round(seconds / FrameTrack.HOP_SECONDS);
    }
}
