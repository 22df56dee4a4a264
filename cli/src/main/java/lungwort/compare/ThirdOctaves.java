package lungwort.compare;

import java.util.ArrayList;
import java.util.List;
import lungwort.signal.Spectrogram;
import lungwort.signal.Statistics;

/**
 * A spectrum in third-octave bands from 100 to 1600 Hz (nominal centres of IEC 61260): the median over time of the mean power density of the band.
 *
 * @param centresHz nominal centres, in Hz
 * @param levelsDb in dB re full scale squared per Hz; the lowest is -140
 */
public record ThirdOctaves(List<Double> centresHz, List<Double> levelsDb) {
    private static final List<Double> CENTRES_HZ =
            List.of(100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0, 500.0, 630.0, 800.0, 1000.0, 1250.0, 1600.0);

    private static final double HALF_BAND = Math.pow(2, 1.0 / 6);

    public ThirdOctaves {
        centresHz = List.copyOf(centresHz);
        levelsDb = List.copyOf(levelsDb);
    }

    /** Of a spectrogram; no band if it has no frame. */
    static ThirdOctaves of(Spectrogram s) {
        if (s.frames() == 0) {
            return new ThirdOctaves(List.of(), List.of());
        }
        List<Double> levels = new ArrayList<>();
        for (double centre : CENTRES_HZ) {
            double[] overTime = new double[s.frames()];
            for (int frame = 0; frame < overTime.length; frame++) {
                overTime[frame] = density(s, frame, centre / HALF_BAND, centre * HALF_BAND);
            }
            levels.add(Math.max(TakeMeasures.FLOOR_DB, 10 * Math.log10(Statistics.median(overTime) + 1e-30)));
        }
        return new ThirdOctaves(CENTRES_HZ, levels);
    }

    private static double density(Spectrogram s, int frame, double lowHz, double highHz) {
        int from = s.binOf(lowHz);
        int to = Math.max(from, s.binOf(highHz));
        double[] row = s.row(frame);
        double sum = 0;
        for (int bin = from; bin <= to; bin++) {
            sum += row[bin];
        }
        return sum / (to - from + 1);
    }
}
