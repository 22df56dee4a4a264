package lungwort.quality;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The numbers behind a {@link Quality}; {@link #numbers} are features of a recording in their own right.
 *
 * @param durationSeconds length, in seconds
 * @param peak largest magnitude, 1 is full scale
 * @param levelDbfs median over time of the RMS level from 60 to 2000 Hz, in dB re full scale (a sine of amplitude 1 has -3, digital silence -104); {@value QualityMeter#FLOOR_DBFS} without a frame
 * @param floorDbfs 10th percentile of the same
 * @param contrastDb how far the level from 200 to 650 Hz, smoothed over 0.25 s, rises from its 10th to its 90th percentile, in dB
 * @param clippedShare share of samples in flat runs at the extremes, in [0, 1]
 * @param standingShare share of samples in runs of one value of 20 ms and more
 * @param dropouts number of such runs
 * @param humHz 50 or 60, whichever is stronger
 * @param humDb how far its lines stand out, in dB
 * @param bandLimitHz where a device or codec cut everything above off, in Hz; half the sample rate (at most 4000) where it did not
 * @param speechShare share of the time in which someone talks or cries
 * @param coughs each cough
 * @param touchesPerMinute touches and bumps of the chest piece
 * @param rubShare share of the time in which something slides along it
 * @param liftedShare share of the time in which the chest piece was off the chest
 * @param tonalShare share of the time in which tones stand over the noise from 200 to 650 Hz: near 1 with music or a machine
 * @param gainRideDb movement of the noise against the breath, in dB: clearly negative with automatic gain
 * @param gateDb depth of sudden falls of everything at once, in dB: noise suppression
 * @param heartRate beats a minute; 0 where no rhythm was found
 * @param heartConfidence in [0, 1]
 * @param heartOverBreathDb 90th percentile of the level from 20 to 150 Hz less that from 200 to 650 Hz, in dB
 * @param breaths whole breaths found
 * @param breathConfidence mean confidence of the breaths found, in [0, 1]; 0 without
 * @param breathRate breaths a minute; 0 where none was found
 * @param breathDepthDb median level from 200 to 650 Hz in inspiration less that in the pauses, in dB; where no phase is told, the spread of the slowly moving level
 * @param breathEvenness 1 where all whole breaths are equally long, towards 0 the more they differ
 * @param texture further numbers by name ({@link Texture})
 */
public record QualityMeasures(
        double durationSeconds,
        double peak,
        double levelDbfs,
        double floorDbfs,
        double contrastDb,
        double clippedShare,
        double standingShare,
        int dropouts,
        int humHz,
        double humDb,
        double bandLimitHz,
        double speechShare,
        List<Quality.Event> coughs,
        double touchesPerMinute,
        double rubShare,
        double liftedShare,
        double tonalShare,
        double gainRideDb,
        double gateDb,
        double heartRate,
        double heartConfidence,
        double heartOverBreathDb,
        int breaths,
        double breathConfidence,
        double breathRate,
        double breathDepthDb,
        double breathEvenness,
        Map<String, Double> texture) {
    public QualityMeasures {
        coughs = List.copyOf(coughs);
        texture = Collections.unmodifiableMap(new LinkedHashMap<>(texture));
    }

    /** Names of {@link #relative}, in its order. */
    public static List<String> relativeNames() {
        return RelativeMeasures.NAMES;
    }

    /** Those numbers that compare the recording with itself, so that the device's gain and colour cancel: shape {@code [relativeNames().size()]}, finite. */
    public double[] relative() {
        return RelativeMeasures.of(numbers());
    }

    /** Every number by name, in an order that never changes. */
    public Map<String, Double> numbers() {
        Map<String, Double> all = new LinkedHashMap<>();
        all.put("duration", durationSeconds);
        all.put("peak", peak);
        all.put("level", levelDbfs);
        all.put("floor", floorDbfs);
        all.put("contrast", contrastDb);
        all.put("clipped", clippedShare);
        all.put("standing", standingShare);
        all.put("dropouts", (double) dropouts);
        all.put("hum", humDb);
        all.put("band limit", bandLimitHz);
        all.put("speech", speechShare);
        all.put("coughs", (double) coughs.size());
        all.put("touches", touchesPerMinute);
        all.put("rub", rubShare);
        all.put("lifted", liftedShare);
        all.put("tonal share", tonalShare);
        all.put("gain ride", gainRideDb);
        all.put("gate", gateDb);
        all.put("heart rate", heartRate);
        all.put("heart confidence", heartConfidence);
        all.put("heart over breath", heartOverBreathDb);
        all.put("breaths", (double) breaths);
        all.put("breath confidence", breathConfidence);
        all.put("breath rate", breathRate);
        all.put("breath depth", breathDepthDb);
        all.put("breath evenness", breathEvenness);
        all.putAll(texture);
        return all;
    }
}
