package lungwort.quality;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Those measures that compare a recording with itself: levels against other moments of the same band, rhythm, counts. Gain and colour of the device cancel, so what is learnt from them under one
 * stethoscope holds under another; absolute levels, the balance of bands and all above 900 Hz, where a narrow device gives nothing, are left out.
 */
final class RelativeMeasures {
    /** Bands from 20 to 900 Hz. */
    private static final int BANDS = 8;

    private static final List<String> PLAIN = List.of(
            "contrast",
            "speech",
            "coughs",
            "touches",
            "rub",
            "lifted",
            "gain ride",
            "gate",
            "heart confidence",
            "breath confidence",
            "breath depth",
            "breath evenness",
            "sunk",
            "harmonic rows",
            "clicks",
            "loud clicks",
            "level spread",
            "level top",
            "roughness",
            "together",
            "voiced 1",
            "voiced 2",
            "voiced 3",
            "voiced 4",
            "rhythm",
            "rhythm dip");

    /** Longer recordings hold more breaths; above this many, more say no more. */
    private static final double MANY_BREATHS = 4;

    /** Names, in the order of {@link #of}. */
    static final List<String> NAMES = names();

    private RelativeMeasures() {}

    private static List<String> names() {
        List<String> names = new ArrayList<>(PLAIN);
        names.add("breaths");
        for (int b = 0; b < BANDS; b++) {
            for (String what : new String[] {"rise ", "swell ", "crest ", "slow ", "spread "}) {
                names.add(what + Texture.bandName(b));
            }
        }
        return List.copyOf(names);
    }

    /** @return shape {@code [NAMES.size()]}, finite */
    static double[] of(Map<String, Double> numbers) {
        Map<String, Double> all = new LinkedHashMap<>(numbers);
        all.merge("breaths", MANY_BREATHS, Math::min);
        for (int b = 0; b < BANDS; b++) {
            String band = Texture.bandName(b);
            all.put("rise " + band, difference(numbers, "usual ", "floor ", band));
            all.put("swell " + band, difference(numbers, "loud ", "usual ", band));
            all.put("crest " + band, difference(numbers, "top ", "loud ", band));
        }
        return NAMES.stream().mapToDouble(name -> value(all, name)).toArray();
    }

    private static double difference(Map<String, Double> numbers, String upper, String lower, String band) {
        return value(numbers, upper + band) - value(numbers, lower + band);
    }

    private static double value(Map<String, Double> numbers, String name) {
        Double value = numbers.get(name);
        if (value == null) {
            throw new IllegalStateException("no measure is called " + name);
        }
        return value;
    }
}
