package lungwort.report;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.diary.Trend;
import lungwort.guidance.Guidance;
import lungwort.guidance.Situation;
import lungwort.guidance.SoundFinding;
import lungwort.round.RoundService;
import lungwort.round.RoundView;
import lungwort.round.SiteView;
import org.jspecify.annotations.Nullable;

/**
 * Makes reports. The same diary gives the same bytes: nothing in a report depends on the clock or on chance.
 *
 * <pre>{@code
 * ReportService reports = new ReportService(rounds, RecordingReader::read);
 * byte[] page = reports.write(reports.ofRound(id, ReportOptions.ALL), ReportFormat.HTML);
 * }</pre>
 */
public final class ReportService {
    /** Most takes whose picture and sound go into one report, the newest round first, in a round those that suggest a sound: about 20 MB. */
    static final int MAX_SHOWN_TAKES = 24;

    private final RoundService rounds;
    private final BiFunction<byte[], String, Recording> reader;

    /**
     * @param rounds says what each round says
     * @param reader turns the bytes of a stored sound file and its name into a recording
     */
    public ReportService(RoundService rounds, BiFunction<byte[], String, Recording> reader) {
        this.rounds = rounds;
        this.reader = reader;
    }

    /**
     * What a report of one round tells.
     *
     * @throws BadInput if there is no such round
     */
    public ReportContent ofRound(UUID roundId, ReportOptions options) {
        Round round = rounds.diary().rounds().get(roundId);
        Person person = rounds.diary().persons().get(round.personId());
        LocalDate first = round.day().minusDays(Trend.RECENT_DAYS);
        return content(person, List.of(round), first, round.day(), options, false);
    }

    /**
     * The newest round of a person that has something to tell: one that was begun and holds nothing yet would hide what was found before it. The newest where none has; empty where there is no round.
     */
    public Optional<Round> newest(Person person) {
        List<Round> all = rounds.diary().rounds().newestFirst(person.id());
        return Stream.concat(telling(all).stream(), all.stream()).findFirst();
    }

    private List<Round> telling(List<Round> all) {
        Diary diary = rounds.diary();
        return all.stream()
                .filter(round -> !round.unanswered()
                        || !diary.takes().ofRound(round.id()).isEmpty()
                        || !diary.notes().ofRound(round.id()).isEmpty())
                .toList();
    }

    /**
     * What a report of a span of days tells; rounds that were begun and hold nothing are left out where others tell something.
     *
     * @throws BadInput if the span is backwards, too long, or holds no round
     */
    public ReportContent ofDays(Person person, LocalDate first, LocalDate last, ReportOptions options) {
        if (last.isBefore(first)) {
            throw new BadInput(
                    "The days go backwards, from %s to %s; name the earlier day first.".formatted(first, last));
        }
        Diary diary = rounds.diary();
        List<Round> found = diary.rounds().ofPerson(person.id(), first, last);
        if (found.isEmpty()) {
            throw new BadInput("There is no round of %s from %s to %s; choose other days with --from and --to."
                    .formatted(person.nickname(), first, last));
        }
        List<Round> telling = telling(found);
        return content(person, telling.isEmpty() ? found : telling, first, last, options, true);
    }

    private ReportContent content(
            Person person, List<Round> found, LocalDate first, LocalDate last, ReportOptions options, boolean span) {
        Diary diary = rounds.diary();
        Function<Round, RoundView> brief = rounds.briefs(person);
        int room = MAX_SHOWN_TAKES;
        List<ReportRound> told = new ArrayList<>();
        for (int i = found.size() - 1; i >= 0; i--) {
            boolean newest = i == found.size() - 1;
            RoundView view = newest ? rounds.view(found.get(i).id()) : brief.apply(found.get(i));
            ReportRound round = round(view, options, room);
            room -= round.takes().size();
            told.add(0, round);
        }
        return new ReportContent(
                options,
                LeavingOut.person(person, options),
                span,
                first,
                last,
                told,
                Trend.of(diary, person.id(), first, last),
                diary.settings().emergencyNumber().orElse(null),
                CardSection.shipped(),
                options.name()
                        ? "person " + person.id()
                        : "round " + found.get(0).id());
    }

    private ReportRound round(RoundView full, ReportOptions options, int room) {
        RoundView view = LeavingOut.view(full, options);
        List<Take> all =
                view.sites().stream().flatMap(site -> site.takes().stream()).toList();
        Set<Take> shown = shown(all, room);
        List<ReportTake> takes = new ArrayList<>();
        for (Take take : all) {
            takes.add(new ReportTake(takes.size() + 1, take, () -> recording(take), shown.contains(take)));
        }
        var stored = view.round().nextStep();
        return new ReportRound(
                view, stored == null ? view.nextStep() : stored, Guidance.limits(situation(view)), takes);
    }

    /** As many as there is room for: those that suggest a sound first, which a clinician will want to hear. */
    private static Set<Take> shown(List<Take> takes, int room) {
        return takes.stream()
                .sorted(Comparator.comparing(take -> !suggests(take)))
                .limit(Math.max(0, room))
                .collect(Collectors.toSet());
    }

    private static boolean suggests(Take take) {
        return take.examination().filter(e -> e.suggestion().namesSound()).isPresent();
    }

    private static Situation situation(RoundView view) {
        List<SoundFinding> sounds = new ArrayList<>();
        for (SiteView site : view.sites()) {
            SoundFinding finding = site.finding();
            if (finding != null) {
                sounds.add(finding);
            }
        }
        return new Situation(
                view.age(),
                view.person().conditions(),
                view.person().limits(),
                view.round().dangerSigns(),
                view.vitals(),
                view.round().symptoms(),
                sounds,
                null,
                view.earlier());
    }

    /** The stored recording; null where it is missing or damaged, which the report then says. */
    private @Nullable Recording recording(Take take) {
        try {
            return reader.apply(rounds.diary().recordings().read(take.recordingSha256()), "recording");
        } catch (BadInput e) {
            return null;
        }
    }

    /**
     * Writes a report down.
     *
     * @throws BadInput if it cannot be drawn on this computer
     */
    public byte[] write(ReportContent content, ReportFormat format) {
        return switch (format) {
            case HTML -> HtmlReport.page(content).getBytes(StandardCharsets.UTF_8);
            case PDF -> PdfReport.write(content);
            case FHIR -> FhirReport.write(content).getBytes(StandardCharsets.UTF_8);
            case CSV -> CsvReport.write(content).getBytes(StandardCharsets.UTF_8);
        };
    }
}
