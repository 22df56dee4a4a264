package lungwort.report;

import java.time.ZoneOffset;
import java.util.List;
import lungwort.output.OutputKind;

/** A round on paper, of two pages (one sheet, both sides): for where no computer stands, and for whoever teaches families. */
public final class BedsideSheet {
    /** How its file is known. */
    public static final OutputKind OUTPUT = new OutputKind("a sheet as PDF", "%PDF-");

    private static final int PAGES = 2;
    private static final String SMALLEST = "small";

    /** It is filled in in poor light and without glasses, so in letters as large as two pages hold. */
    private static final List<String> STYLES = List.of("large", "middle", SMALLEST);

    private BedsideSheet() {}

    /**
     * The sheet as PDF; the same bytes for the same person, limits and day.
     *
     * @throws lungwort.BadInput if it cannot be made, as on a computer without a font
     */
    public static byte[] write(SheetContent content) {
        return print(content).bytes();
    }

    static PdfPrint print(SheetContent content) {
        return STYLES.stream()
                .map(style -> print(content, style))
                .filter(print -> print.pages() <= PAGES)
                .findFirst()
                .orElseGet(() -> print(content, SMALLEST));
    }

    private static PdfPrint print(SheetContent content, String style) {
        return PdfPrint.of(
                SheetHtml.page(content, style),
                content.day().atStartOfDay().atOffset(ZoneOffset.UTC),
                "copy the questions and places of 'lungwort round questions' and 'lungwort round sites'");
    }
}
