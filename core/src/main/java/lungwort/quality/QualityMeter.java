package lungwort.quality;

import java.util.Arrays;
import java.util.List;
import lungwort.audio.FlatTops;
import lungwort.breath.BandLevelMeter;
import lungwort.breath.Breath;
import lungwort.breath.BreathTracker;
import lungwort.breath.Breathing;
import lungwort.heart.HeartBeats;
import lungwort.heart.HeartCurve;
import lungwort.heart.HeartFinder;
import lungwort.signal.Envelope;
import lungwort.signal.Statistics;

/** Gathers {@link QualityMeasures} from samples that are pushed in order; what it returns does not depend on how they were cut into blocks. Mutable, for one thread. */
final class QualityMeter {
    /** Lowest level told, in dB re full scale: below one step of 16 bits. */
    static final double FLOOR_DBFS = -120;

    private static final double BOTH_SIDES_DB = 10 * Math.log10(2);

    private static final double BREATH_SMOOTH_SECONDS = 0.25;

    /** A band in which the mean stands this much over the median holds a tone; noise gives 2 to 4 dB. */
    private static final double TONAL_DB = 8;

    private static final int TONAL_FIRST_BAND = 4;
    private static final int TONAL_LAST_BAND = 6;

    private final int sampleRateHz;
    private final FlatTops flatTops = new FlatTops();
    private final Dropouts dropouts;
    private final FrameTrack track;
    private final LineSpectrum lines;
    private final HeartCurve heart;
    private final BandLevelMeter breath;
    private long samples;

    QualityMeter(int sampleRateHz) {
        this.sampleRateHz = sampleRateHz;
        this.dropouts = new Dropouts(sampleRateHz);
        this.track = new FrameTrack(sampleRateHz);
        this.lines = new LineSpectrum(sampleRateHz);
        this.heart = new HeartCurve(sampleRateHz);
        this.breath = new BandLevelMeter(sampleRateHz);
    }

    void push(double[] block) {
        for (double x : block) {
            flatTops.push(x);
            dropouts.push(x);
        }
        track.push(block);
        lines.push(block);
        heart.push(block);
        breath.push(block);
        samples += block.length;
    }

    QualityMeasures measures() {
        return measures(BreathTracker.track(breath.levels()));
    }

    /** The numbers, where the breaths of the same samples were tracked before. */
    QualityMeasures measures(Breathing breathing) {
        List<FrameTrack.Frame> frames = track.frames();
        Curves curves = Curves.of(frames);
        var disturbances = new DisturbanceFinder(frames, curves).find();
        LineSpectrum.Hum hum = lines.hum();
        GainRide ride = GainRide.of(frames);
        BreathDepth depth = BreathDepth.of(frames, breathing);
        HeartBeats beats = HeartFinder.find(heart);
        HeartBeats.Rate heartRate = beats.rate();
        Breathing.Rate breathRate = breathing.rate();
        double[] middle = Envelope.smoothed(curves.middle(), (int) (BREATH_SMOOTH_SECONDS / FrameTrack.HOP_SECONDS));
        return new QualityMeasures(
                (double) samples / sampleRateHz,
                flatTops.peak(),
                level(curves.wide(), 50),
                level(curves.wide(), 10),
                percentile(middle, 90) - percentile(middle, 10),
                share(flatTops.clipped()),
                share(dropouts.samples()),
                dropouts.stretches(),
                hum.hz(),
                hum.prominenceDb(),
                track.histogram().bandLimitHz(),
                disturbances.speechShare(),
                disturbances.coughs(),
                disturbances.touchesPerMinute(),
                disturbances.rubShare(),
                LiftFinder.share(curves.low(), QualityLimits.LIFTED_DB),
                tonalShare(frames),
                ride.rideDb(),
                ride.gateDb(),
                heartRate == null ? 0 : heartRate.perMinute(),
                heartRate == null ? 0 : heartRate.confidence(),
                percentile(curves.low(), 90) - percentile(curves.middle(), 90),
                breathing.whole().size(),
                breathing.breaths().stream()
                        .mapToDouble(Breath::confidence)
                        .average()
                        .orElse(0),
                breathRate == null ? 0 : breathRate.perMinute(),
                depth.depthDb(),
                depth.evenness(),
                Texture.of(frames, curves, track.flux()));
    }

    private static double tonalShare(List<FrameTrack.Frame> frames) {
        int n = 0;
        for (FrameTrack.Frame frame : frames) {
            double over = 0;
            for (int b = TONAL_FIRST_BAND; b <= TONAL_LAST_BAND; b++) {
                over = Math.max(over, frame.meanDb()[b] - frame.medianDb()[b]);
            }
            n += over > TONAL_DB ? 1 : 0;
        }
        return frames.isEmpty() ? 0 : (double) n / frames.size();
    }

    private double share(long part) {
        return samples == 0 ? 0 : (double) part / samples;
    }

    /** Curves hold the power of the positive frequencies alone; a real signal has as much again at the negative ones. */
    private static double level(double[] curve, double percent) {
        return curve.length == 0 ? FLOOR_DBFS : Math.max(FLOOR_DBFS, percentile(curve, percent) + BOTH_SIDES_DB);
    }

    private static double percentile(double[] x, double percent) {
        return x.length == 0
                ? FLOOR_DBFS
                : Math.max(FLOOR_DBFS, Statistics.percentile(Arrays.copyOf(x, x.length), percent));
    }
}
