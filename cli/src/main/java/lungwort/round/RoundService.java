package lungwort.round;

import java.io.ByteArrayInputStream;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.compare.Clearing;
import lungwort.diary.Day;
import lungwort.diary.Diary;
import lungwort.diary.Measures;
import lungwort.diary.NewTake;
import lungwort.diary.OxygenDays;
import lungwort.diary.Person;
import lungwort.diary.RecordingStore;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.diary.Trend;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.Age;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerSign;
import lungwort.guidance.EarlierDays;
import lungwort.guidance.EmergencyNumber;
import lungwort.guidance.Guidance;
import lungwort.guidance.NextStep;
import lungwort.guidance.Outcome;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.SoundFinding;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/** Makes rounds: stores takes, has them examined, and says what they mean together. May serve several threads. */
public final class RoundService {
    /** How long after its beginning a round is gone on with. What was answered longer ago says little of now. Common practice. */
    public static final Duration GOES_ON_FOR = Duration.ofHours(12);

    private final Diary diary;
    private final BiFunction<byte[], String, Recording> reader;
    private final Function<Recording, Examination> examiner;

    /**
     * @param diary where everything is kept
     * @param reader turns the bytes of a sound file and its name into a recording; throws {@link lungwort.BadInput} where it cannot
     * @param examiner examines a recording
     */
    public RoundService(
            Diary diary, BiFunction<byte[], String, Recording> reader, Function<Recording, Examination> examiner) {
        this.diary = diary;
        this.reader = reader;
        this.examiner = examiner;
    }

    /** The diary. */
    public Diary diary() {
        return diary;
    }

    /** Puts stored takes beside one another. */
    public Comparing comparing() {
        return new Comparing(diary, reader);
    }

    /** Takes out again what was put into a round by mistake. */
    public TakingOut takingOut() {
        return new TakingOut(diary);
    }

    /** The newest open round of a person, unless it began too long ago to go on with. */
    public static Optional<Round> goingOn(Diary diary, Person person) {
        return diary.rounds().open(person.id()).filter(round -> !longAgo(diary, round));
    }

    /** True if a round began so long ago that its answers are not those of now, or stands as far ahead, dated by a clock that was put right since: nobody knows how long ago that was. */
    public static boolean longAgo(Diary diary, Round round) {
        return Duration.between(round.startedAt().toInstant(), diary.clock().instant())
                        .abs()
                        .compareTo(GOES_ON_FOR)
                > 0;
    }

    /** Begins a round now. */
    public Round start(Person person) {
        return diary.rounds().start(person.id());
    }

    /**
     * Adds a take: reads it, stores it, examines it, stores the examination. A round that was finished is open again.
     *
     * @param content the bytes of the sound file as it came
     * @return the take with its examination
     * @throws lungwort.BadInput if it is no sound file that can be read, or cannot be stored; then nothing is stored
     */
    public Take add(NewTake take, byte[] content) {
        return add(take, content, read(content, take.fileName()));
    }

    /**
     * Reads a recording without storing it.
     *
     * @param content the bytes of the sound file as it came
     * @throws lungwort.BadInput if it is no sound file that can be read
     */
    public Recording read(byte[] content, String name) {
        return reader.apply(content, name);
    }

    /**
     * Adds a take whose recording was read already.
     *
     * @param recording what {@link #read} made of the content
     * @throws lungwort.BadInput if it cannot be stored; then nothing is stored
     */
    public Take add(NewTake take, byte[] content, Recording recording) {
        return examined(diary.together(() -> stored(take, content)), recording);
    }

    /**
     * Adds a take, or answers with the one that holds the same recording at the same site for the same reason: two pages of one diary, each a process of its own, may be asked for it at the same moment.
     *
     * @throws lungwort.BadInput if it cannot be stored; then nothing is stored
     */
    public Take addOnce(NewTake take, byte[] content) {
        Recording recording = read(content, take.fileName());
        Take stored = diary.together(() -> held(take, content).orElseGet(() -> stored(take, content)));
        return stored.examined() == null ? examined(stored, recording) : stored;
    }

    private Take stored(NewTake take, byte[] content) {
        reopen(take.roundId());
        return diary.takes().add(take, new ByteArrayInputStream(content));
    }

    /** True if the round already holds the same recording at the same site for the same reason. */
    public boolean holds(NewTake take, byte[] content) {
        return held(take, content).isPresent();
    }

    /**
     * Refuses a recording that stands elsewhere already: no two recordings are the same. One of another round of the person was taken for that of today; one of another place or listen of this round would
     * make two places sound alike, or say that nothing cleared.
     *
     * @param how how the user takes out a take of this round that stands there by mistake, behind "take that one out", to the end of the sentence; a command has no full stop behind it, so that copying takes none along
     * @throws BadInput if there is one
     */
    public void refuseElsewhere(NewTake take, byte[] content, Function<Take, String> how) {
        Round round = diary.rounds().get(take.roundId());
        String hash = RecordingStore.hashOf(content);
        for (Take own : diary.takes().ofRound(round.id())) {
            if (own.recordingSha256().equals(hash)
                    && !(own.site().equals(take.site()) && own.reason() == take.reason())) {
                throw new BadInput(
                        "%s is the very recording that stands in this round already (%s, %s); choose the one that was made here and now%s"
                                .formatted(
                                        take.fileName(),
                                        own.site().words(),
                                        own.reason().id(),
                                        wayOut(own, how)));
            }
        }
        Take older = diary.takes().elsewhere(round.personId(), round.id(), hash).orElse(null);
        if (older != null) {
            throw new BadInput(
                    "%s is the very recording that stands in the round of %s already (%s); choose the one that was made now."
                            .formatted(
                                    take.fileName(),
                                    diary.rounds().get(older.roundId()).day(),
                                    older.site().words()));
        }
    }

    /** The sentence's end. It says nothing where the take has to stay: a way that is refused is none. */
    private String wayOut(Take own, Function<Take, String> how) {
        return takingOut().stays(own).isPresent()
                ? "."
                : ", or, if that take is there by mistake, take that one out%s".formatted(how.apply(own));
    }

    /**
     * Refuses a recording that the round holds already by another of its channels: it is the same listen, and would be told as listening again, in which a sound stays or clears. Two channels at two places
     * may be two chest pieces.
     *
     * @param channels the recording's other channels, each as the diary would keep it
     * @param whole the recording with all its channels; null if that is what is added
     * @param how how the user takes out a take of this round that stands there by mistake, behind "take that one out", to the end of the sentence; a command has no full stop behind it, so that copying takes none along
     * @throws BadInput if the round holds one of them
     */
    public void refuseOtherChannel(
            NewTake take, List<byte[]> channels, byte @Nullable [] whole, Function<Take, String> how) {
        List<String> hashes = channels.stream().map(RecordingStore::hashOf).toList();
        String wholeHash = whole == null ? "" : RecordingStore.hashOf(whole);
        for (Take own : diary.takes().ofRound(take.roundId())) {
            boolean other = hashes.contains(own.recordingSha256())
                    && (whole == null || own.site().equals(take.site()));
            if (other || own.recordingSha256().equals(wholeHash)) {
                throw new BadInput(
                        "%s is the recording that stands in this round already with another of its channels (%s: %s), and that is no second listen; record again, or begin another round and add it there%s"
                                .formatted(take.fileName(), own.site().words(), own.fileName(), wayOut(own, how)));
            }
        }
    }

    /** The take that holds the same recording at the same site for the same reason, if the round has one. */
    public Optional<Take> held(NewTake take, byte[] content) {
        String hash = RecordingStore.hashOf(content);
        return diary.takes().ofRound(take.roundId()).stream()
                .filter(t ->
                        t.recordingSha256().equals(hash) && t.site().equals(take.site()) && t.reason() == take.reason())
                .findFirst();
    }

    /**
     * Examines the stored recording of a take, once more or for the first time; the new examination counts.
     *
     * @throws lungwort.BadInput if the recording is missing or was changed, or there is too little memory to examine it
     */
    public Take examineAgain(Take take) {
        byte[] content = diary.recordings().read(take.recordingSha256());
        return examined(take, reader.apply(content, take.fileName()));
    }

    /**
     * Examines takes of the round that have no examination, such as after a crash between storing and examining. What cannot be examined is passed over: what to do next
     * must not wait for one recording.
     *
     * @return for each take that could not be examined, a sentence that says why
     */
    public List<String> examinePending(UUID roundId) {
        List<String> faults = new ArrayList<>();
        for (Take take : diary.takes().ofRound(roundId)) {
            if (take.examined() == null) {
                try {
                    examineAgain(take);
                } catch (BadInput e) {
                    faults.add(String.valueOf(e.getMessage()));
                }
            }
        }
        return faults;
    }

    private Take examined(Take take, Recording recording) {
        try {
            diary.takes().examined(take.id(), examiner.apply(recording));
        } catch (OutOfMemoryError e) {
            throw new BadInput(
                    "%s: it is kept in the diary, but there is too little memory to examine it; add a shorter one, of 15 to 30 seconds."
                            .formatted(take.fileName()),
                    e);
        }
        return diary.takes().get(take.id());
    }

    private void reopen(UUID roundId) {
        Round round = diary.rounds().get(roundId);
        if (!round.open()) {
            diary.rounds().change(round.reopened());
        }
    }

    /**
     * Changes a round as it is stored by now: what was answered meanwhile in another window, or by another command, is kept.
     *
     * @param change from the round as it is stored to the round as it shall be
     */
    public RoundView change(UUID roundId, UnaryOperator<Round> change) {
        Round before = diary.rounds().get(roundId);
        UUID stored = storing(
                diary.persons().get(before.personId()),
                change.apply(before),
                () -> diary.together(() -> {
                    diary.rounds().change(change.apply(diary.rounds().get(roundId)));
                    return roundId;
                }));
        return view(stored);
    }

    /**
     * Runs what stores answers. Where they cannot be stored, as on a full disk, an emergency that they say is told all the same, and first.
     *
     * @param answered the round as it is with these answers
     * @throws lungwort.BadInput what {@code store} throws, behind what to do in an emergency if these answers are one
     */
    public <T> T storing(Person person, Round answered, Supplier<T> store) {
        try {
            return store.get();
        } catch (BadInput e) {
            NextStep step = Guidance.decideFromBirthMonth(Situations.of(
                    person,
                    person.age(answered.day()),
                    answered,
                    answered.vitals(),
                    List.of(),
                    number(),
                    EarlierDays.NONE));
            if (step.outcome() != Outcome.EMERGENCY_NOW) {
                throw e;
            }
            throw new BadInput("EMERGENCY: %s %s".formatted(step.actions().get(0), e.getMessage()), e);
        }
    }

    private @Nullable EmergencyNumber number() {
        return diary.settings().emergencyNumber().orElse(null);
    }

    /** Finishes a round: what is said now is kept, and rests on all that was answered until now. */
    public RoundView finish(UUID roundId) {
        return diary.together(() -> {
            RoundView view = view(roundId);
            Instant now = diary.clock().instant();
            diary.rounds().change(view.round().finished(now, view.nextStep()));
            return view(roundId);
        });
    }

    /**
     * All that the round says so far.
     *
     * @throws lungwort.BadInput if there is no such round
     */
    public RoundView view(UUID roundId) {
        Round round = diary.rounds().get(roundId);
        Person person = diary.persons().get(round.personId());
        List<Round> all = diary.rounds().ofPerson(person.id());
        OxygenDays before = OxygenDays.before(round.day(), person, all);
        Trend trend = Trend.ofDay(diary, person.id(), round.day(), all, before);
        return view(person, round, before.earlier(round), usual(trend));
    }

    /** The same of any of a person's stored rounds, without earlier days beside it: for lists of many, so that all days are gone through once. Rounds that are begun later need another. */
    public Function<Round, RoundView> briefs(Person person) {
        OxygenDays oxygen = OxygenDays.of(person, diary.rounds().ofPerson(person.id()));
        return round -> view(person, round, oxygen.earlierOn(round), List.of());
    }

    private RoundView view(Person person, Round round, EarlierDays earlier, List<AgainstUsual> usual) {
        Age age = person.age(round.day());
        List<Take> takes = diary.takes().ofRound(round.id());
        List<SiteView> sites = sites(takes);
        List<Site> open = Sites.round(age).stream()
                .filter(s -> sites.stream().noneMatch(v -> v.site().equals(s) && v.told()))
                .toList();
        Vitals vitals = Situations.withHeardRate(round.vitals(), takes);
        NextStep step =
                Guidance.decideFromBirthMonth(Situations.of(person, age, round, vitals, sites, number(), earlier));
        return new RoundView(
                person,
                age,
                round,
                openDangerSigns(round, age, person.conditions()),
                vitals,
                sites,
                open,
                sides(sites),
                Asking.next(age, takes, sites, open),
                earlier,
                usual,
                diary.notes().ofRound(round.id()),
                step);
    }

    private static List<DangerSign> openDangerSigns(Round round, Age age, Conditions known) {
        return Guidance.dangerSigns(age, known).stream()
                .filter(s -> !round.dangerSigns().yes().contains(s.id())
                        && !round.dangerSigns().no().contains(s.id()))
                .toList();
    }

    private static List<SiteView> sites(List<Take> takes) {
        List<SiteView> sites = new ArrayList<>();
        for (Map.Entry<Site, List<Take>> entry : Situations.bySite(takes).entrySet()) {
            SoundFinding finding = Situations.finding(entry.getKey(), entry.getValue());
            sites.add(new SiteView(entry.getKey(), entry.getValue(), finding, changes(entry.getValue())));
        }
        List<Site> order = Sites.catalogue();
        sites.sort(Comparator.comparingInt(v -> order.indexOf(v.site())));
        return sites;
    }

    private static List<BeforeAfter> changes(List<Take> takes) {
        List<BeforeAfter> changes = new ArrayList<>();
        Take before = null;
        for (Take take : takes) {
            if (before != null && SiteView.judged(take)) {
                changes.add(change(before, take));
            } else if (before == null && Situations.suggestsExtra(take)) {
                before = take;
            }
        }
        return changes;
    }

    private static BeforeAfter change(Take before, Take after) {
        Examination then = before.examination().orElseThrow();
        Examination now = after.examination().orElseThrow();
        List<Clearing> clearings = Comparing.clearings(then, now);
        return new BeforeAfter(
                before,
                after,
                Measures.of(then),
                Measures.of(now),
                Told.of(then),
                Told.of(now),
                now.suggestion() == Suggestion.NONE_HEARD && !now.noneInHardlyABreath(),
                clearings,
                RoundWords.beforeAfter(after.reason(), clearings));
    }

    private static List<SidePair> sides(List<SiteView> sites) {
        List<SidePair> pairs = new ArrayList<>();
        for (SiteView view : sites) {
            Site other = view.site().otherSide();
            if (view.site().side() == Site.Side.LEFT && other != null) {
                sites.stream()
                        .filter(v -> v.site().equals(other))
                        .findFirst()
                        .map(right -> pair(view, right))
                        .ifPresent(pairs::add);
            }
        }
        return pairs;
    }

    private static @Nullable SidePair pair(SiteView left, SiteView right) {
        Take a = left.telling().orElse(null);
        Take b = right.telling().orElse(null);
        if (a == null || b == null) {
            return null;
        }
        Examination onLeft = a.examination().orElseThrow();
        Examination onRight = b.examination().orElseThrow();
        String height = left.site().words().replace(", left", "");
        Measures measuresLeft = Measures.of(onLeft);
        Measures measuresRight = Measures.of(onRight);
        Told toldLeft = left.told(onLeft);
        Told toldRight = right.told(onRight);
        return new SidePair(
                left.site(),
                right.site(),
                a.id(),
                b.id(),
                measuresLeft,
                measuresRight,
                toldLeft,
                toldRight,
                RoundWords.sides(
                        height,
                        RoundWords.numbersBeside(measuresLeft, toldLeft),
                        RoundWords.numbersBeside(measuresRight, toldRight)));
    }

    private static List<AgainstUsual> usual(Trend trend) {
        List<AgainstUsual> against = new ArrayList<>();
        for (Trend.Measure measure : Trend.Measure.values()) {
            Day day = trend.days().get(0);
            Double value = measure.of(day);
            String how = measure == Trend.Measure.SPO2 ? trend.spo2How(day) : "";
            Trend.Usual usual = trend.usual(measure);
            Trend.Usual ofAll = trend.usualOfLastDays(measure);
            if (value != null && usual != null) {
                // After weeks without a round only days further back are known.
                AgainstUsual first = AgainstUsual.of(measure, value, how, usual);
                against.add(
                        ofAll == null
                                ? first
                                : AgainstUsual.moreTelling(first, AgainstUsual.of(measure, value, how, ofAll)));
            }
        }
        return against;
    }
}
