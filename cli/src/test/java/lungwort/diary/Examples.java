package lungwort.diary;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.SourceFormat;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.classify.HeardEvent;
import lungwort.examine.BreathingPause;
import lungwort.examine.Evidence;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.EarlierDays;
import lungwort.guidance.UsualSpo2;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
import lungwort.round.RoundService;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.SoundKind;
import org.jspecify.annotations.Nullable;

/** Invented persons and examinations for tests. */
public final class Examples {
    private Examples() {}

    /** A person's own usual SpO2 on a day, whether a round was made on it or not, of values of which nobody said how they were measured. */
    public static @Nullable UsualSpo2 usualSpo2(Diary diary, Person person, LocalDate day) {
        return earlier(diary, person, day).usualNotSaid();
    }

    /** What a person's days before a day say of it. */
    public static EarlierDays earlier(Diary diary, Person person, LocalDate day) {
        return OxygenDays.before(day, person, diary.rounds().ofPerson(person.id()))
                .earlier(day);
    }

    /** What is held against a round: the days before its day, and the weights of rounds before it. */
    public static EarlierDays earlier(Diary diary, Person person, Round round) {
        return OxygenDays.before(round.day(), person, diary.rounds().ofPerson(person.id()))
                .earlier(round);
    }

    /** A clock that a test moves, and takes to other zones; it stands at 2026-03-01 08:00 in a zone one hour east of Greenwich. */
    public static final class MovingClock extends Clock {
        private final AtomicLong nowMs =
                new AtomicLong(Instant.parse("2026-03-01T07:00:00Z").toEpochMilli());

        private volatile ZoneId zone = ZoneOffset.ofHours(1);

        public void travelTo(ZoneId there) {
            zone = there;
        }

        public void set(Instant instant) {
            nowMs.set(instant.toEpochMilli());
        }

        public void set(String instant) {
            set(Instant.parse(instant));
        }

        public void plusSeconds(long seconds) {
            nowMs.addAndGet(seconds * 1000);
        }

        @Override
        public ZoneId getZone() {
            return zone;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            throw new UnsupportedOperationException();
        }

        @Override
        public Instant instant() {
            return Instant.ofEpochMilli(nowMs.get());
        }
    }

    /** What {@code Findings} says first of a recording unlike what the model learnt from. */
    public static final String UNLIKE =
            "On the whole this recording sounds unlike nearly all that the model learnt from, as through another kind of device: there it can miss most extra sounds, crackles above all.";

    /** Adds a child with asthma. */
    public static Person person(Diary diary, String nickname) {
        return diary.persons()
                .add(
                        nickname,
                        YearMonth.of(2021, 4),
                        Conditions.of(Condition.ASTHMA),
                        "born at 31 weeks",
                        ClinicianLimits.NONE);
    }

    /** Bytes that stand for a recording. */
    public static InputStream bytes(String text) {
        return new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
    }

    /** Ten seconds with two breaths of four seconds, so many wheezes of 0.5 s and so many crackles. */
    public static Examination examination(int wheezes, int crackles) {
        List<Evidence> evidence = new ArrayList<>();
        for (int i = 0; i < wheezes; i++) {
            evidence.add(new Evidence(
                    new ContinuousSound(SoundKind.WHEEZE, 1 + i, 1.5 + i, List.of(), 400, 1, false, 0.9, 12),
                    BreathPhase.EXPIRATION,
                    0.5));
        }
        for (int i = 0; i < crackles; i++) {
            evidence.add(new Evidence(
                    new Crackle(SoundKind.FINE_CRACKLE, 2 + 0.1 * i, 2.006 + 0.1 * i, 0.7, 6, 1, 10),
                    BreathPhase.INSPIRATION,
                    0.8));
        }
        List<HeardEvent> events = new ArrayList<>();
        for (int i = 0; i < wheezes; i++) {
            events.add(new HeardEvent(0.9 + i, 1.6 + i, true, 0.6));
        }
        if (crackles > 0) {
            events.add(new HeardEvent(1.9, 2.1 + 0.1 * crackles, false, 0.45));
        }
        Suggestion suggestion = wheezes > 0
                ? crackles > 0 ? Suggestion.BOTH : Suggestion.CONTINUOUS
                : crackles > 0 ? Suggestion.DISCONTINUOUS : Suggestion.NONE_HEARD;
        return new Examination(
                "example.wav",
                10,
                SourceFormat.memory(4000),
                suggestion,
                new Examination.Probabilities(wheezes > 0 ? 0.9 : 0.1, crackles > 0 ? 0.9 : 0.1, 0.02),
                new Quality(true, List.of()),
                new Breathing(
                        List.of(new Breath(1, 5, List.of(), 0.9), new Breath(5, 9, List.of(), 0.9)),
                        new Breathing.Rate(15, 14, 16, 0.9)),
                evidence,
                events,
                List.of(),
                evidence.isEmpty() ? List.of("Nothing resembles an extra sound.") : List.of(),
                "test-model 1");
    }

    /**
     * A round service whose sound files are words: {@code wheezes N crackles N rate N pause N}, {@code unusable} and {@code unusable wheezes N}, or {@code unsure} and {@code soft}, which cannot tell, {@code hasty}, in which hardly a whole breath is found, or {@code unfamiliar}, in which nothing stands out and which is unlike what was learnt from, as is {@code unlike wheezes N}; anything else is refused as a reader would refuse a letter.
     */
    public static RoundService service(Diary diary) {
        return new RoundService(diary, Examples::read, Examples::examine);
    }

    private static Recording read(byte[] content, String name) {
        String words = new String(content, StandardCharsets.UTF_8);
        if (!words.matches(
                "unusable( wheezes \\d+)?|unlike wheezes \\d+|unsure|soft|unfamiliar|hasty|((wheezes|crackles|rate|pause) \\d+ ?)+")) {
            throw new BadInput(name + ": this is not a sound file.");
        }
        return new Recording(new double[] {0.5}, 4000, words);
    }

    private static Examination examine(Recording recording) {
        String words = recording.origin();
        Examination e = examination(number(words, "wheezes", 0), number(words, "crackles", 0));
        boolean usable = !words.startsWith("unusable");
        int rate = number(words, "rate", 15);
        boolean told = usable && !words.equals("unsure") && !words.equals("soft");
        Quality quality = usable
                ? switch (words) {
                    case "soft" ->
                        new Quality(true, List.of(new Quality.Finding(QualityIssue.TOO_QUIET, false, "invented")));
                    case "hasty" ->
                        new Quality(
                                true, List.of(new Quality.Finding(QualityIssue.TOO_FEW_BREATHS, false, "invented")));
                    default -> e.quality();
                }
                : new Quality(false, List.of(new Quality.Finding(QualityIssue.NOISY, true, "invented")));
        return new Examination(
                e.origin(),
                e.durationSeconds(),
                e.source(),
                words.equals("unfamiliar")
                        ? Suggestion.NONE_STANDS_OUT
                        : told ? e.suggestion() : Suggestion.CANNOT_TELL,
                e.probabilities(),
                quality,
                usable
                        ? new Breathing(e.breathing().breaths(), new Breathing.Rate(rate, rate - 1, rate + 1, 0.9))
                        : Breathing.NONE,
                e.evidence(),
                e.events(),
                number(words, "pause", 0) == 0
                        ? List.of()
                        : List.of(new BreathingPause(2, 2 + number(words, "pause", 0))),
                words.startsWith("unlike") ? List.of(UNLIKE) : e.reasons(),
                e.model());
    }

    private static int number(String words, String name, int otherwise) {
        Matcher matcher = Pattern.compile(name + " (\\d+)").matcher(words);
        return matcher.find() ? Integer.parseInt(matcher.group(1)) : otherwise;
    }
}
