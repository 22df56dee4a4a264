package lungwort.feature;

/** The smoothed shape of the spectrum and how it moves. */
final class CepstralFeatures {
    private static final int CONTOUR = 6;
    private static final int CONTOUR_BANDS = 8;
    private static final String[] NUMBER = {
        "0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "15"
    };

    private CepstralFeatures() {}

    static void write(FeatureFrames o, int from, int to, FeatureWriter w) {
        for (int k = 0; k < FeatureFrames.COEFFICIENTS; k++) {
            Spread s = new Spread(o.cepstrum[k], from, to);
            double[] step = new double[to - from - 1];
            double absolute = 0;
            for (int i = 0; i < step.length; i++) {
                step[i] = o.cepstrum[k][from + i + 1] - o.cepstrum[k][from + i];
                absolute += Math.abs(step[i]) / step.length;
            }
            String name = "cepstrum." + NUMBER[k];
            String formula = "mel cepstral coefficient (40 bands, 60 to 1980 Hz; Davis and Mermelstein 1980)";
            w.put(name, "mean", "dB", formula, s.mean());
            w.put(name, "sd", "dB", formula, s.deviation());
            w.put(name, "step", "dB", "mean absolute step from frame to frame", absolute);
            w.put(
                    name,
                    "stepSd",
                    "dB",
                    "deviation of the step from frame to frame",
                    new Spread(step, 0, step.length).deviation());
            w.put(name, "relative", "dB", "mean less the recording's own median", s.mean() - o.background.cepstrum[k]);
        }
        contour(o, from, to, w);
        steps(o, from, to, w);
    }

    /** How fast the levels of 8 bands move from frame to frame. */
    private static void steps(FeatureFrames o, int from, int to, FeatureWriter w) {
        int wide = FeatureFrames.MEL_BANDS / CONTOUR_BANDS;
        double[] step = new double[to - from - 1];
        double[] size = new double[step.length];
        for (int band = 0; band < CONTOUR_BANDS; band++) {
            for (int i = 0; i < step.length; i++) {
                step[i] = 0;
                for (int k = band * wide; k < (band + 1) * wide; k++) {
                    step[i] += (o.mel[from + i + 1][k] - o.mel[from + i][k]) / wide;
                }
                size[i] = Math.abs(step[i]);
            }
            Spread s = new Spread(step, 0, step.length);
            String name = "melStep." + NUMBER[band];
            String formula = "step from frame to frame (16 ms) of the mean level of an eighth of the mel bands";
            w.put(name, "size", "dB", formula, new Spread(size, 0, size.length).mean());
            w.put(name, "sd", "dB", formula, s.deviation());
            w.put(name, "p95", "dB", formula, s.percentile(95));
            w.put(name, "kurtosis", "1", formula, s.kurtosis());
        }
    }

    /** Levels of 8 bands in 6 equal parts of the segment, less the recording's own median. */
    private static void contour(FeatureFrames o, int from, int to, FeatureWriter w) {
        int wide = FeatureFrames.MEL_BANDS / CONTOUR_BANDS;
        for (int part = 0; part < CONTOUR; part++) {
            int a = from + (to - from) * part / CONTOUR;
            int b = Math.max(a + 1, from + (to - from) * (part + 1) / CONTOUR);
            for (int band = 0; band < CONTOUR_BANDS; band++) {
                double sum = 0;
                for (int f = a; f < b; f++) {
                    for (int k = band * wide; k < (band + 1) * wide; k++) {
                        sum += o.mel[f][k] - o.background.mel[k];
                    }
                }
                w.put(
                        "contour." + NUMBER[part],
                        NUMBER[band],
                        "dB",
                        "level of a sixth of the segment in an eighth of the mel bands over the recording's own",
                        sum / (b - a) / wide);
            }
        }
    }
}
