package lungwort.round;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.compare.Clearing;
import lungwort.compare.Comparer;
import lungwort.compare.Relation;
import lungwort.compare.Repeatability;
import lungwort.compare.TakeMeasures;
import lungwort.compare.Usual;
import lungwort.diary.Diary;
import lungwort.diary.OxygenDays;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.examine.Examination;
import lungwort.guidance.TakeReason;

/** Puts stored takes beside one another; reads their recordings, which takes a moment each. */
public final class Comparing {
    /** How many earlier takes at a site make its usual, newest first. */
    static final int MAX_EARLIER_TAKES = 10;

    private static final Repeatability REPEATABILITY = Repeatability.shipped();

    private final Diary diary;
    private final BiFunction<byte[], String, Recording> reader;

    Comparing(Diary diary, BiFunction<byte[], String, Recording> reader) {
        this.diary = diary;
        this.reader = reader;
    }

    static List<Clearing> clearings(Examination before, Examination after) {
        return Clearing.of(before, after, REPEATABILITY);
    }

    /**
     * Two takes of the diary, in the order given.
     *
     * @throws BadInput if one is not examined yet, or its recording is missing or was changed
     */
    public Compared takes(UUID firstId, UUID secondId) {
        Take first = diary.takes().get(firstId);
        Take second = diary.takes().get(secondId);
        Relation relation = relation(first, second);
        List<Clearing> clearings =
                relation == Relation.BEFORE_AFTER ? clearings(examination(first), examination(second)) : List.of();
        return new Compared(
                first,
                second,
                new Comparer(REPEATABILITY).compare(measures(first), measures(second), relation, true),
                clearings);
    }

    /** Left against right, and upper against lower, over the take that stands for each site of a round. */
    public List<Compared> round(RoundView view) {
        List<Take> telling = view.sites().stream()
                .map(SiteView::telling)
                .flatMap(java.util.Optional::stream)
                .toList();
        List<Compared> compared = new ArrayList<>();
        for (Take a : telling) {
            for (Take b : telling) {
                Relation relation = Relation.between(a.site(), b.site());
                if (relation == Relation.LEFT_RIGHT || relation == Relation.UPPER_LOWER) {
                    compared.add(takes(a.id(), b.id()));
                }
            }
        }
        return compared;
    }

    /**
     * A take against the newest earlier ones of this person at the same site, first takes that could be judged, of each round the one that tells most: of days on which nothing asked for a clinician where there are enough, so that an illness that grows slowly is not taken for usual; of all where only that tells something new.
     *
     * @throws BadInput if it is not examined yet, or a recording is missing or was changed
     */
    public UsualAtSite usual(UUID takeId) {
        Take take = diary.takes().get(takeId);
        Round round = diary.rounds().get(take.roundId());
        List<Take> earlier = new ArrayList<>();
        List<Take> well = new ArrayList<>();
        List<Round> all = diary.rounds().ofPerson(round.personId());
        Set<LocalDate> unwell =
                OxygenDays.of(diary.persons().get(round.personId()), all).askedForClinician();
        for (Round before : all) {
            if (before.startedAt().toInstant().isBefore(round.startedAt().toInstant())) {
                List<Take> firsts = diary.takes().ofRound(before.id()).stream()
                        .filter(t -> t.site().equals(take.site()) && t.reason() == TakeReason.FIRST)
                        .toList();
                SiteView.telling(firsts).ifPresent(t -> {
                    earlier.add(t);
                    if (!unwell.contains(before.day())) {
                        well.add(t);
                    }
                });
            }
        }
        boolean ofWellDays = well.size() >= Usual.ENOUGH_TAKES || well.size() == earlier.size();
        // Each recording is read and measured once, though it may stand in both.
        Map<UUID, TakeMeasures> known = new HashMap<>();
        Map<UUID, LocalDate> days = all.stream().collect(Collectors.toMap(Round::id, Round::day));
        UsualAtSite ofAll = against(take, earlier, days, well.size() == earlier.size(), known);
        return ofWellDays && well.size() < earlier.size()
                ? UsualAtSite.moreTelling(against(take, well, days, true, known), ofAll)
                : ofAll;
    }

    private UsualAtSite against(
            Take take,
            List<Take> earlier,
            Map<UUID, LocalDate> days,
            boolean ofWellDays,
            Map<UUID, TakeMeasures> known) {
        List<Take> newest = earlier.subList(Math.max(0, earlier.size() - MAX_EARLIER_TAKES), earlier.size());
        return new UsualAtSite(
                take,
                newest,
                newest.isEmpty() ? null : days.get(newest.get(0).roundId()),
                newest.isEmpty() ? null : days.get(newest.get(newest.size() - 1).roundId()),
                ofWellDays,
                Usual.of(
                        measures(take, known),
                        newest.stream().map(t -> measures(t, known)).toList(),
                        true,
                        REPEATABILITY));
    }

    private TakeMeasures measures(Take take, Map<UUID, TakeMeasures> known) {
        return known.computeIfAbsent(take.id(), id -> measures(take));
    }

    private TakeMeasures measures(Take take) {
        Recording recording = reader.apply(diary.recordings().read(take.recordingSha256()), take.fileName());
        return TakeMeasures.of(recording, examination(take));
    }

    private static Examination examination(Take take) {
        return take.examination()
                .orElseThrow(() -> new BadInput("The take at %s is not examined yet, so it cannot be compared."
                        .formatted(take.site().words())));
    }

    private static Relation relation(Take first, Take second) {
        if (!first.roundId().equals(second.roundId())) {
            return first.site().equals(second.site()) ? Relation.EARLIER_LATER : Relation.FIRST_SECOND;
        }
        return Objects.requireNonNullElse(Relation.between(first.site(), second.site()), Relation.FIRST_SECOND);
    }
}
