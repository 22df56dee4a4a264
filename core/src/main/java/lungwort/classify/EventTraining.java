package lungwort.classify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import lungwort.BadInput;
import lungwort.feature.MelImage;
import lungwort.feature.TimeSpan;
import lungwort.sound.MeasuredSound;
import org.jspecify.annotations.Nullable;

/**
 * Trains an {@link EventModel} on recordings as they were made, that listeners could judge and in which they marked when each sound is heard. The limits are chosen on folds of patients that
 * models had not learnt from.
 */
final class EventTraining {
    /** A stretch that shares so much of what either covers with a marked sound teaches how far its edges are from it: less than finds it, since moved it may. Common practice. */
    private static final double NEAR_SHARE = 0.3;

    /** Edges further off than this, in seconds, count by their distance, not by its square: listeners mark loosely. */
    private static final double FAR_SECONDS = 0.2;

    /** As likely as not: from this probability on a whole recording counts, while a limit is chosen, as one that holds a sound of a kind. When its suggestion is made is chosen later. */
    private static final double THERE_FROM = 0.5;

    private final List<TrainingItem> items;
    private final int[] foldOfItem;
    private final int folds;
    private final BlendSettings settings;
    private final @Nullable LearnerSettings edges;
    private final long seed;
    private final int[] learnt;

    EventTraining(List<TrainingItem> items, int[] foldOfItem, int folds, EventSettings settings, long seed) {
        this.items = items;
        this.foldOfItem = foldOfItem;
        this.folds = folds;
        this.settings = settings.sounds();
        this.edges = settings.edges();
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
        return item.timesMarked() && !item.altered() && item.label() != RecordingClass.POOR_QUALITY;
    }

    /**
     * Candidates of one recording for one kind of sound.
     *
     * @param spans where they are, moved where edges are
     * @param facts of each
     */
    private record Candidates(List<TimeSpan> spans, List<float[]> facts) {}

    /**
     * What stands out in one recording, whatever its kind.
     *
     * @param spans in order of time
     * @param facts {@link EventFacts#of} each
     * @param edges null where edges stay
     */
    private record Found(
            List<TimeSpan> spans,
            List<float[]> facts,
            @Nullable EventEdgeFacts edges) {}

    private Found found(int i, float[][] frames, double[] whole) {
        List<MeasuredSound> sounds = items.get(i).sounds();
        List<TimeSpan> spans = EventCandidates.of(frames, sounds);
        EventFacts facts = new EventFacts(frames, sounds, whole);
        return new Found(
                spans,
                spans.stream().map(facts::of).toList(),
                edges == null ? null : new EventEdgeFacts(frames, items.get(i).image(), sounds));
    }

    /**
     * @param frames {@link NetLook#frames} of each recording, by nets that had not seen its patient
     * @param whole class probabilities of each recording by itself, by models that had not either
     */
    EventModel train(float[][][] frames, double[][] whole) {
        @Nullable Found[] found = new Found[items.size()];
        Arrays.stream(learnt).parallel().forEach(i -> found[i] = found(i, frames[i], whole[i]));
        Kind continuous = new Kind(true, found, whole);
        Kind discontinuous = new Kind(false, found, whole);
        EdgeShifts tones = continuous.moveEdges();
        EdgeShifts crackles = discontinuous.moveEdges();
        return new EventModel(
                continuous.fit(-1),
                discontinuous.fit(-1),
                continuous.limit(),
                discontinuous.limit(),
                tones == null || crackles == null ? null : new EventModel.Edges(tones, crackles));
    }

    /** One kind of sound: candidates of each recording that is learnt from. */
    private final class Kind {
        private final boolean continuous;
        private final @Nullable Candidates[] candidates = new Candidates[items.size()];
        private final boolean[] there = new boolean[items.size()];

        Kind(boolean continuous, @Nullable Found[] found, double[][] whole) {
            this.continuous = continuous;
            for (int i : learnt) {
                double[] p = whole[i];
                there[i] = (continuous ? RecordingClass.continuous(p) : RecordingClass.discontinuous(p)) >= THERE_FROM;
                Found own = Objects.requireNonNull(found[i]);
                candidates[i] = new Candidates(own.spans, EventModel.rows(own.spans, own.facts, own.edges, continuous));
            }
        }

        /**
         * Moves every candidate's edges as learnt from other folds.
         *
         * @return as learnt from all; null where edges stay
         */
        @Nullable
        EdgeShifts moveEdges() {
            if (edges == null) {
                return null;
            }
            EdgeShifts[] shifts = new EdgeShifts[folds + 1];
            for (int fold = 0; fold <= folds; fold++) {
                shifts[fold] = fitEdges(edges, fold);
            }
            for (int i : learnt) {
                Candidates own = candidates[i];
                if (own != null) {
                    double seconds = items.get(i).image()[0].length * MelImage.HOP_SECONDS;
                    candidates[i] = new Candidates(
                            EventModel.moved(shifts[foldOfItem[i]], own.spans, own.facts, seconds), own.facts);
                }
            }
            return shifts[folds];
        }

        private EdgeShifts fitEdges(LearnerSettings trees, int without) {
            List<float[]> rows = new ArrayList<>();
            List<Double> starts = new ArrayList<>();
            List<Double> ends = new ArrayList<>();
            for (int i : learnt) {
                Candidates own = candidates[i];
                for (int k = 0; own != null && foldOfItem[i] != without && k < own.spans.size(); k++) {
                    TimeSpan span = own.spans.get(k);
                    MarkedSound nearest = nearest(span, items.get(i).marked());
                    if (nearest != null) {
                        rows.add(own.facts.get(k));
                        starts.add(nearest.startSeconds() - span.startSeconds());
                        ends.add(nearest.endSeconds() - span.endSeconds());
                    }
                }
            }
            if (rows.isEmpty()) {
                throw new BadInput(
                        "No stretch that stands out lies near enough to a marked sound to learn its start and end from; leave 'edges' out of the recipe's events.");
            }
            float[][] x = rows.toArray(float[][]::new);
            long own = seed + (continuous ? 2 : 4);
            return new EdgeShifts(
                    trees.fitNumber(x, numbers(starts), FAR_SECONDS, own),
                    trees.fitNumber(x, numbers(ends), FAR_SECONDS, own + 1));
        }

        /** The marked sound of this kind that shares most with a stretch; null where none shares enough. */
        private @Nullable MarkedSound nearest(TimeSpan span, List<MarkedSound> marked) {
            return marked.stream()
                    .filter(sound -> sound.is(continuous) && share(span, sound) >= NEAR_SHARE)
                    .max(Comparator.comparingDouble(sound -> share(span, sound)))
                    .orElse(null);
        }

        /** The limit chosen on folds of patients that models had not learnt from. */
        EventLimit limit() {
            EventLimitSearch limit = new EventLimitSearch(continuous);
            for (int fold = 0; fold < folds; fold++) {
                Blend blend = fit(fold);
                for (int i : learnt) {
                    Candidates own = candidates[i];
                    if (foldOfItem[i] == fold && own != null) {
                        double[] p = Arrays.stream(blend.probabilities(own.facts.toArray(float[][]::new)))
                                .mapToDouble(both -> both[1])
                                .toArray();
                        limit.add(
                                edges == null
                                        ? EventModel.chosen(own.spans, p, continuous)
                                        : EventModel.voted(own.spans, p, continuous),
                                items.get(i).marked(),
                                there[i]);
                    }
                }
            }
            return limit.best();
        }

        /** @param without a fold that is not learnt from; below zero for none */
        Blend fit(int without) {
            StageRows rows = new StageRows();
            for (int i : learnt) {
                Candidates own = candidates[i];
                for (int k = 0; own != null && foldOfItem[i] != without && k < own.spans.size(); k++) {
                    rows.add(
                            own.facts.get(k),
                            EventModel.finds(own.spans.get(k), items.get(i).marked(), continuous) ? 1 : 0);
                }
            }
            List<String> names = EventModel.names(edges != null);
            int[] columns = IntStream.range(0, names.size())
                    .filter(c -> settings.uses(names.get(c)))
                    .toArray();
            if (columns.length == 0 || rows.isEmpty()) {
                throw new BadInput(
                        "The recipe's events use facts that are not known, or no stretch stands out to learn from; leave their 'features' out.");
            }
            return rows.fit(2, columns, settings, seed + (continuous ? 0 : 1));
        }
    }

    private static double share(TimeSpan span, MarkedSound sound) {
        return EventModel.share(span.startSeconds(), span.endSeconds(), sound.startSeconds(), sound.endSeconds());
    }

    private static double[] numbers(List<Double> values) {
        return values.stream().mapToDouble(Double::doubleValue).toArray();
    }
}
