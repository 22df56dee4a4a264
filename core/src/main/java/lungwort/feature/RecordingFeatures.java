package lungwort.feature;

import java.util.Arrays;

/** Features of a whole recording: what its levels, ridges and transients are like over all of its length. */
final class RecordingFeatures {
    private static final int WIDE = 5;
    private static final String[] BAND = {"0", "1", "2", "3", "4", "5", "6", "7"};

    private RecordingFeatures() {}

    static void write(FeatureFrames o, FeatureWriter w) {
        w.put("recording.duration", "", "s", "length of the recording", o.seconds);
        levels(o, w);
        ridges(o, w);
        transients(o, w);
        loudness(o, w);
        o.measured.recording(w);
    }

    /** Shape and spread of the levels of eight bands. */
    private static void levels(FeatureFrames o, FeatureWriter w) {
        double[][] level = new double[BAND.length][o.mel.length];
        for (int f = 0; f < o.mel.length; f++) {
            for (int b = 0; b < BAND.length; b++) {
                for (int k = 0; k < WIDE; k++) {
                    level[b][f] += o.mel[f][b * WIDE + k] / WIDE;
                }
            }
        }
        double[] median = new double[BAND.length];
        Spread[] s = new Spread[BAND.length];
        Arrays.setAll(s, b -> new Spread(level[b], 0, level[b].length));
        Arrays.setAll(median, b -> s[b].percentile(50));
        double mean = Arrays.stream(median).average().orElse(0);
        for (int b = 0; b < BAND.length; b++) {
            String name = "recording.level." + BAND[b];
            String formula = "level of an eighth of the mel bands";
            w.put(name, "shape", "dB", formula + ", median less the mean of all eight", median[b] - mean);
            w.put(name, "p95", "dB", formula + ", over its median", s[b].percentile(95) - median[b]);
            w.put(name, "p99", "dB", formula + ", over its median", s[b].percentile(99) - median[b]);
            w.put(name, "p5", "dB", formula + ", under its median", median[b] - s[b].percentile(5));
        }
    }

    private static void ridges(FeatureFrames o, FeatureWriter w) {
        for (int m = 0; m < RidgeFrames.MEASURES.length; m++) {
            Spread s = new Spread(o.ridges.measure[m], 0, o.ridges.frames);
            String name = "recording." + RidgeFrames.MEASURES[m];
            String unit = RidgeFrames.unit(m);
            String formula = "over all frames";
            w.put(name, "median", unit, formula, s.percentile(50));
            w.put(name, "p75", unit, formula, s.percentile(75));
            w.put(name, "p90", unit, formula, s.percentile(90));
            w.put(name, "p97", unit, formula, s.percentile(97));
            w.put(name, "max", unit, formula, s.max());
        }
    }

    private static void transients(FeatureFrames o, FeatureWriter w) {
        for (int b = 0; b < Bands.ENVELOPE_NAMES.length; b++) {
            Spread s = new Spread(o.envelopes.rise[b], 0, o.envelopes.steps);
            String name = "recording.rise." + Bands.ENVELOPE_NAMES[b];
            String formula = "rise over the surrounding 82 ms";
            w.put(name, "p90", "dB", formula, s.percentile(90));
            w.put(name, "p97", "dB", formula, s.percentile(97));
            w.put(name, "p99", "dB", formula, s.percentile(99));
            w.put(name, "p99.8", "dB", formula, s.percentile(99.8));
            w.put(name, "kurtosis", "1", formula, s.kurtosis());
        }
    }

    /** How uneven the recording is in time: handling and speech make it so. */
    private static void loudness(FeatureFrames o, FeatureWriter w) {
        for (int b = 0; b < Bands.ENVELOPE_NAMES.length; b++) {
            Spread s = new Spread(o.envelopes.level[b], 0, o.envelopes.steps);
            String name = "recording.envelope." + Bands.ENVELOPE_NAMES[b];
            w.put(name, "sd", "dB", "deviation of the level", s.deviation());
            w.put(name, "range", "dB", "95th less 5th percentile of the level", s.percentile(95) - s.percentile(5));
            w.put(
                    name,
                    "crest",
                    "dB",
                    "99.9th percentile of the level over its median",
                    s.percentile(99.9) - s.percentile(50));
        }
    }
}
