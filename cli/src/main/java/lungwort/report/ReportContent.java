package lungwort.report;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import java.util.UUID;
import java.util.stream.Stream;
import lungwort.diary.Person;
import lungwort.diary.Trend;
import lungwort.guidance.EmergencyNumber;
import org.jspecify.annotations.Nullable;

/**
 * All that a report tells, without what was to be left out: no format can tell more.
 *
 * @param options what was asked for
 * @param person whom it is about, without name and words where those are left out
 * @param span true if it tells a span of days, false if a single round
 * @param first first day
 * @param last last day
 * @param rounds oldest first, at least one
 * @param trend day by day up to the last day
 * @param emergencyNumber the number to call, or null where the diary holds none
 * @param card the model card, as shipped; empty where there is none
 * @param seed what all ids in the report are derived from
 */
public record ReportContent(
        ReportOptions options,
        Person person,
        boolean span,
        LocalDate first,
        LocalDate last,
        List<ReportRound> rounds,
        Trend trend,
        @Nullable EmergencyNumber emergencyNumber,
        String card,
        String seed) {
    /** Stands where the name was left out. */
    public static final String NO_NAME = "Name left out";

    public ReportContent {
        rounds = List.copyOf(rounds);
    }

    /** The newest round. */
    public ReportRound newest() {
        return rounds.get(rounds.size() - 1);
    }

    /** How many takes' pictures and sound are left out to keep the file small. */
    int hidden() {
        return (int) rounds.stream()
                .flatMap(r -> r.takes().stream())
                .filter(t -> !t.shown())
                .count();
    }

    /** The newest time in it, as near as the same diary gives the same bytes: FHIR R4 wants when the bundle was assembled, which is not before what it holds. */
    OffsetDateTime newestTime() {
        return Stream.concat(Stream.of(date()), newest().takes().stream().map(t -> t.heardAt(date())))
                .max(Comparator.comparing(OffsetDateTime::toInstant))
                .orElseThrow();
    }

    /** When the newest round began: the date of the report. */
    public OffsetDateTime date() {
        return newest().view().round().startedAt();
    }

    /** The versions of Lungwort and the models that made the examinations, each once. */
    public List<String> makers() {
        TreeSet<String> makers = new TreeSet<>();
        for (ReportRound round : rounds) {
            for (ReportTake take : round.takes()) {
                var examined = take.take().examined();
                if (examined != null) {
                    makers.add("Lungwort %s, model %s"
                            .formatted(
                                    examined.lungwortVersion(),
                                    examined.examination().model()));
                }
            }
        }
        return List.copyOf(makers);
    }

    /** An id derived from what the report is about and what the id is for: the same report has the same ids. */
    UUID id(String purpose) {
        return UUID.nameUUIDFromBytes((seed + " " + purpose).getBytes(java.nio.charset.StandardCharsets.UTF_8));
    }
}
