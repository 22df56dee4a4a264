package lungwort.report;

import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.time.OffsetDateTime;
import java.util.Calendar;
import java.util.GregorianCalendar;
import java.util.Objects;
import lungwort.BadInput;
import lungwort.picture.Pictures;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;

/** The print: tagged by PDF/UA as far as the library can, with title and language, the same bytes for the same report. */
final class PdfReport {
    private static final String FONT = "Report";
    private static final int BOLD = 700;
    private static final int REGULAR = 400;

    /** What a clinician has time for. */
    static final int MAX_PAGES = 2;

    private PdfReport() {}

    /** On two pages, as far as drawing together allows it; what needs more all the same leaves no reason out, for no page would be saved by it. */
    static byte[] write(ReportContent content) {
        Pictures.requireFont();
        XRLog.setLoggingEnabled(false);
        for (Medium medium : Medium.PAPERS) {
            Print print = print(content, medium);
            if (print.pages() <= MAX_PAGES) {
                return print.bytes();
            }
        }
        return print(content, Medium.BARE_PAPER).bytes();
    }

    @SuppressWarnings("ArrayRecordComponent") // passed on at once, never compared
    private record Print(byte[] bytes, int pages) {}

    private static Print print(ReportContent content, Medium medium) {
        String html = HtmlReport.print(content, medium);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PdfRendererBuilder builder = new PdfRendererBuilder()
                .usePdfUaAccessibility(true)
                .useFastMode()
                .withProducer("Lungwort")
                .useFont(() -> font("DejaVuSansCondensed.ttf"), FONT, REGULAR, style(), true)
                .useFont(() -> font("DejaVuSansCondensed-Bold.ttf"), FONT, BOLD, style(), true)
                // Only what stands in the report itself is ever loaded: neither files nor network.
                .useUriResolver((base, uri) -> uri.startsWith("data:") ? uri : null)
                .withHtmlContent(html, null)
                .toStream(out);
        try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
            renderer.createPDFWithoutClosing();
            PDDocument document = renderer.getPdfDocument();
            timeless(document, content.date(), html);
            document.save(out);
            return new Print(out.toByteArray(), document.getNumberOfPages());
        } catch (IOException e) {
            throw new BadInput(
                    "The PDF report cannot be made (%s); use the HTML report and print it.".formatted(e.getMessage()),
                    e);
        }
    }

    private static PdfRendererBuilder.FontStyle style() {
        return PdfRendererBuilder.FontStyle.NORMAL;
    }

    private static InputStream font(String name) {
        return Objects.requireNonNull(PdfReport.class.getResourceAsStream("/lungwort/report/" + name), name);
    }

    /** Dates and id come from the report, not from the clock. */
    private static void timeless(PDDocument document, OffsetDateTime date, String html) {
        Calendar calendar = GregorianCalendar.from(date.toZonedDateTime());
        PDDocumentInformation information = document.getDocumentInformation();
        information.setCreationDate(calendar);
        information.setModificationDate(calendar);
        document.setDocumentId((long) html.hashCode());
    }
}
