package lungwort.classify;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import lungwort.BadInput;
import lungwort.feature.TimeSpan;
import org.jspecify.annotations.Nullable;

/**
 * Trains an {@link EventModel} on recordings as they were made, that listeners could judge and in which they marked when each sound is heard. The limits are chosen on folds of patients that
 * models had not learnt from.
 */
final class EventTraining {
    private final List<TrainingItem> items;
    private final int[] foldOfItem;
    private final int folds;
    private final BlendSettings settings;
    private final long seed;
    private final int[] learnt;

    EventTraining(List<TrainingItem> items, int[] foldOfItem, int folds, BlendSettings settings, long seed) {
        this.items = items;
        this.foldOfItem = foldOfItem;
        this.folds = folds;
        this.settings = settings;
        this.seed = seed;
        this.learnt = IntStream.range(0, items.size())
                .filter(i -> learnt(items.get(i)))
                .toArray();
        for (boolean continuous : new boolean[] {true, false}) {
            if (Arrays.stream(learnt)
                    .noneMatch(i -> items.get(i).marked().stream().anyMatch(s -> s.is(continuous)))) {
                throw new BadInput(
                        "The recipe's events are learnt from sounds of both kinds whose time listeners marked, and there are none of one kind; train on SPRSound, or leave 'events' out.");
            }
        }
    }

    private static boolean learnt(TrainingItem item) {
        return item.timesMarked() && item.label() != RecordingClass.POOR_QUALITY;
    }

    /** Candidates of one recording with their facts. */
    @SuppressWarnings("ArrayRecordComponent") // numbers on their way, never compared
    private record Candidates(List<TimeSpan> spans, float[][] facts) {}

    /**
     * @param frames {@link NetLook#frames} of each recording, by nets that had not seen its patient
     * @param whole class probabilities of each recording by itself, by models that had not either
     */
    EventModel train(float[][][] frames, double[][] whole) {
        @Nullable Candidates[] candidates = new Candidates[items.size()];
        Arrays.stream(learnt).parallel().forEach(i -> {
            List<TimeSpan> spans = EventCandidates.of(frames[i], items.get(i).sounds());
            EventFacts facts = new EventFacts(frames[i], items.get(i).sounds(), whole[i]);
            candidates[i] = new Candidates(spans, spans.stream().map(facts::of).toArray(float[][]::new));
        });
        EventLimit continuous = new EventLimit(true);
        EventLimit discontinuous = new EventLimit(false);
        for (int fold = 0; fold < folds; fold++) {
            addFound(continuous, true, fold, candidates);
            addFound(discontinuous, false, fold, candidates);
        }
        return new EventModel(
                fit(true, -1, candidates), fit(false, -1, candidates), continuous.best(), discontinuous.best());
    }

    private void addFound(EventLimit limit, boolean continuous, int fold, @Nullable Candidates[] candidates) {
        Blend blend = fit(continuous, fold, candidates);
        for (int i : learnt) {
            Candidates own = candidates[i];
            if (foldOfItem[i] == fold && own != null) {
                double[] p = Arrays.stream(blend.probabilities(own.facts))
                        .mapToDouble(both -> both[1])
                        .toArray();
                limit.add(
                        EventModel.chosen(own.spans, p, continuous),
                        items.get(i).marked());
            }
        }
    }

    /** @param without a fold that is not learnt from; below zero for none */
    private Blend fit(boolean continuous, int without, @Nullable Candidates[] candidates) {
        StageRows rows = new StageRows();
        for (int i : learnt) {
            Candidates own = candidates[i];
            for (int k = 0; own != null && foldOfItem[i] != without && k < own.facts.length; k++) {
                rows.add(
                        own.facts[k],
                        EventModel.finds(own.spans.get(k), items.get(i).marked(), continuous) ? 1 : 0);
            }
        }
        int[] columns = IntStream.range(0, EventFacts.NAMES.size())
                .filter(c -> settings.uses(EventFacts.NAMES.get(c)))
                .toArray();
        if (columns.length == 0 || rows.isEmpty()) {
            throw new BadInput(
                    "The recipe's events use facts that are not known, or no stretch stands out to learn from; leave their 'features' out.");
        }
        return rows.fit(2, columns, settings, seed + (continuous ? 0 : 1));
    }
}
