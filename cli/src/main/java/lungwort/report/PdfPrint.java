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

/**
 * A page of HTML as PDF: tagged by PDF/UA as far as the library can, with title and language, the same bytes for the same page.
 *
 * @param bytes the file
 * @param pages how many pages it has
 */
@SuppressWarnings("ArrayRecordComponent") // passed on at once, never compared
record PdfPrint(byte[] bytes, int pages) {
    private static final String FONT = "Report";
    private static final int BOLD = 700;
    private static final int REGULAR = 400;

    /**
     * Prints a page.
     *
     * @param html well formed, with pictures inside
     * @param date what the file says of when it was made
     * @param instead what else can be done where it fails, for a sentence
     * @throws BadInput if it cannot be made
     */
    static PdfPrint of(String html, OffsetDateTime date, String instead) {
        Pictures.requireFont();
        XRLog.setLoggingEnabled(false);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PdfRendererBuilder builder = new PdfRendererBuilder()
                .usePdfUaAccessibility(true)
                .useFastMode()
                .withProducer("Lungwort")
                .useFont(() -> font("DejaVuSansCondensed.ttf"), FONT, REGULAR, style(), true)
                .useFont(() -> font("DejaVuSansCondensed-Bold.ttf"), FONT, BOLD, style(), true)
                // Only what stands in the page itself is ever loaded: neither files nor network.
                .useUriResolver((base, uri) -> uri.startsWith("data:") ? uri : null)
                .withHtmlContent(html, null)
                .toStream(out);
        try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
            renderer.createPDFWithoutClosing();
            PDDocument document = renderer.getPdfDocument();
            timeless(document, date, html);
            document.save(out);
            return new PdfPrint(out.toByteArray(), document.getNumberOfPages());
        } catch (IOException e) {
            throw new BadInput("The PDF cannot be made (%s); %s.".formatted(e.getMessage(), instead), e);
        }
    }

    private static PdfRendererBuilder.FontStyle style() {
        return PdfRendererBuilder.FontStyle.NORMAL;
    }

    private static InputStream font(String name) {
        return Objects.requireNonNull(PdfPrint.class.getResourceAsStream("/lungwort/report/" + name), name);
    }

    /** Dates and id come from what is printed, not from the clock. */
    private static void timeless(PDDocument document, OffsetDateTime date, String html) {
        Calendar calendar = GregorianCalendar.from(date.toZonedDateTime());
        PDDocumentInformation information = document.getDocumentInformation();
        information.setCreationDate(calendar);
        information.setModificationDate(calendar);
        document.setDocumentId((long) html.hashCode());
    }
}
