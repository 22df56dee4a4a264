package lungwort.compare;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import lungwort.audio.SourceFormat;

/** Decides which measures of two takes can be compared, and says which can no longer be. */
final class Comparability {
    private final Set<Measure> lost = EnumSet.noneOf(Measure.class);
    private final List<String> sentences = new ArrayList<>();

    private Comparability() {}

    /**
     * @param sameDevice false if somebody said that another device or setting was used; formats that differ are taken as that too
     */
    static Comparability of(TakeMeasures a, TakeMeasures b, boolean sameDevice) {
        Comparability result = new Comparability();
        List<String> formats = formats(a.source(), b.source());
        if (!sameDevice || !formats.isEmpty()) {
            String why = sameDevice
                    ? "The recordings were stored differently (" + String.join("; ", formats)
                            + "), so the device or its settings differ"
                    : "Another device or setting was used";
            result.lose(why, EnumSet.of(Measure.Needs.SAME_GAIN, Measure.Needs.SAME_DEVICE));
        }
        double highest = Math.min(a.highestHz(), b.highestHz());
        if (a.highestHz() != b.highestHz() && highest < CRACKLES_NEED_HZ) {
            result.lose(
                    "One recording reaches only up to %.0f Hz and the other one further".formatted(highest),
                    EnumSet.of(Measure.Needs.SAME_BAND));
        }
        result.unusable(a, b);
        for (TakeMeasures take : List.of(a, b)) {
            result.notMeasured(take, Measure.WHEEZE_SHARE, true, "a continuous sound");
            result.notMeasured(take, Measure.CRACKLES_PER_BREATH, false, "crackles");
        }
        result.untold(a, b);
        return result;
    }

    /** Crackles are short: what tells them from noise lies up to about here (CORSA: coarse and fine crackles within 2 kHz, from memory). */
    private static final double CRACKLES_NEED_HZ = 2000;

    private void unusable(TakeMeasures a, TakeMeasures b) {
        for (TakeMeasures take : List.of(a, b)) {
            if (!take.usable()) {
                Set<Measure> evidence = EnumSet.range(Measure.WHEEZE_SHARE, Measure.DISCONTINUOUS_PROBABILITY);
                lost.addAll(evidence);
                sentences.add(
                        "%s could not be judged, or nothing could be told from it: its extra sounds are not compared."
                                .formatted(take.name()));
            }
        }
    }

    /** A zero beside a suggestion of that very sound is no number of it: it would read as if there were none, or as if it had gone. */
    private void notMeasured(TakeMeasures take, Measure measure, boolean continuous, String sound) {
        Double value = take.value(measure);
        if (value != null && value == 0 && take.suggestion().names(continuous)) {
            lost.add(measure);
            sentences.add("%s suggests %s that the measuring did not find: there is no number of %s to compare."
                    .formatted(take.name(), sound, continuous ? "it" : "them"));
        }
    }

    /** In one line, for whoever looks for a row in vain. */
    private void untold(TakeMeasures a, TakeMeasures b) {
        Set<Measure> out = EnumSet.noneOf(Measure.class);
        List<String> names = new ArrayList<>();
        for (TakeMeasures take : List.of(a, b)) {
            List<Measure> of = OF_SOUNDS.stream()
                    .filter(measure -> take.usable() && take.value(measure) == null && !lost.contains(measure))
                    .toList();
            out.addAll(of);
            if (!of.isEmpty()) {
                names.add(take.name());
            }
        }
        if (!out.isEmpty()) {
            sentences.add(
                    "Left out: %s. In %s such sounds can be there and be missed: a number would read as if there were none."
                            .formatted(words(out), String.join(" and ", names)));
        }
    }

    /** What says something of sounds in every recording in which they can be told. */
    static final Set<Measure> OF_SOUNDS = Collections.unmodifiableSet(EnumSet.of(
            Measure.WHEEZE_SHARE,
            Measure.CRACKLES_PER_BREATH,
            Measure.CONTINUOUS_PROBABILITY,
            Measure.DISCONTINUOUS_PROBABILITY));

    static String words(Collection<Measure> measures) {
        return measures.stream().map(Measure::words).collect(Collectors.joining(", "));
    }

    private void lose(String why, Set<Measure.Needs> needs) {
        List<Measure> gone = new ArrayList<>();
        for (Measure measure : Measure.values()) {
            if (needs.contains(measure.needs()) && lost.add(measure)) {
                gone.add(measure);
            }
        }
        if (!gone.isEmpty()) {
            sentences.add("%s: no longer comparable are %s.".formatted(why, words(gone)));
        }
    }

    private static List<String> formats(SourceFormat a, SourceFormat b) {
        List<String> differing = new ArrayList<>();
        if (a.sampleRateHz() != b.sampleRateHz()) {
            differing.add("%d and %d samples a second".formatted(a.sampleRateHz(), b.sampleRateHz()));
        }
        if (!a.encoding().equals(b.encoding())) {
            differing.add("%s and %s".formatted(a.encoding(), b.encoding()));
        }
        if (a.bitsPerSample() != b.bitsPerSample()) {
            differing.add("%d and %d bits".formatted(a.bitsPerSample(), b.bitsPerSample()));
        }
        if (a.channels() != b.channels()) {
            differing.add("%d and %d channels".formatted(a.channels(), b.channels()));
        }
        return differing;
    }

    boolean comparable(Measure measure) {
        return !lost.contains(measure);
    }

    List<String> sentences() {
        return List.copyOf(sentences);
    }
}
