package lungwort.page;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.LocalDate;
import java.util.Objects;
import lungwort.audio.RecordingReader;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.report.BedsideSheet;
import lungwort.report.ReportContent;
import lungwort.report.ReportFormat;
import lungwort.report.ReportOptions;
import lungwort.report.ReportService;
import lungwort.report.SheetContent;
import lungwort.round.RoundService;
import org.jspecify.annotations.Nullable;

/** Reports, as {@code lungwort report} writes them, and the sheet of paper. */
final class ReportRoutes {
    /** A report brings its own style, pictures and sound inside; nothing of it may run, or reach this page. */
    private static final String CONTENT_SECURITY_POLICY =
            "default-src 'none'; img-src data:; media-src data:; style-src 'unsafe-inline'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'; sandbox";

    private final Diary diary;
    private final ReportService reports;

    ReportRoutes(RoundService service) {
        this.diary = service.diary();
        this.reports = new ReportService(service, RecordingReader::read);
    }

    void add(RoutesConfig routes) {
        routes.get("/api/rounds/{id}/report/{format}", context -> {
            ReportFormat format = ReportFormat.ofName(context.pathParam("format"));
            write(context, reports.ofRound(Ids.of(context), options(context)), format);
        });
        routes.get("/api/persons/{id}/report/{format}", context -> {
            ReportFormat format = ReportFormat.ofName(context.pathParam("format"));
            Person person = diary.persons().get(Ids.of(context));
            LocalDate last = DiaryRoutes.day(context.queryParam("to"), diary.lastDay(person.id()));
            LocalDate first = DiaryRoutes.day(context.queryParam("from"), last);
            write(context, reports.ofDays(person, first, last, options(context)), format);
        });
        routes.get("/api/persons/{id}/sheet", context -> {
            Person person = diary.persons().get(Ids.of(context));
            SheetContent sheet = SheetContent.of(
                    person, diary.settings().emergencyNumber().orElse(null), LocalDate.now(diary.clock()));
            saved(context, "lungwort-sheet.pdf");
            context.contentType(ReportFormat.PDF.mediaType()).result(BedsideSheet.write(sheet));
        });
    }

    private static ReportOptions options(Context context) {
        return new ReportOptions(
                !left(context.queryParam("name")),
                !left(context.queryParam("notes")),
                !left(context.queryParam("audio")));
    }

    private static boolean left(@Nullable String value) {
        return Objects.equals(value, "no");
    }

    /** The page is shown, the other formats are saved as files; their name tells nobody whom they are about. */
    private void write(Context context, ReportContent content, ReportFormat format) {
        byte[] bytes = reports.write(content, format);
        if (format == ReportFormat.HTML) {
            context.header("Content-Security-Policy", CONTENT_SECURITY_POLICY);
        } else {
            saved(context, "lungwort-report." + format.extension());
        }
        context.contentType(format.mediaType()).result(bytes);
    }

    private static void saved(Context context, String name) {
        context.header("Content-Disposition", "attachment; filename=\"%s\"".formatted(name));
    }
}
