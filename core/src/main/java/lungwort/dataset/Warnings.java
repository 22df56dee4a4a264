package lungwort.dataset;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Gathers oddities, each kind counted with its first place, so that a thousand of a kind are one sentence. */
final class Warnings {
    private final Map<String, Integer> counts = new LinkedHashMap<>();
    private final Map<String, String> firstPlace = new LinkedHashMap<>();
    private final List<String> others = new ArrayList<>();

    void countIf(boolean odd, String kind, String place) {
        if (odd) {
            counts.merge(kind, 1, Integer::sum);
            firstPlace.putIfAbsent(kind, place);
        }
    }

    void add(String sentence) {
        others.add(sentence);
    }

    List<String> sentences() {
        List<String> all = new ArrayList<>(others);
        counts.forEach((kind, count) ->
                all.add(String.format(Locale.ROOT, "%d %s (first: %s).", count, kind, firstPlace.get(kind))));
        return all;
    }
}
