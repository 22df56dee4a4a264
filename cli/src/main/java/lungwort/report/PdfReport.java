package lungwort.report;

/** The print of a report. */
final class PdfReport {
    /** What a clinician has time for. */
    static final int MAX_PAGES = 2;

    private PdfReport() {}

    /** On two pages, as far as drawing together allows it; what needs more all the same leaves no reason out, for no page would be saved by it. */
    static byte[] write(ReportContent content) {
        for (Medium medium : Medium.PAPERS) {
            PdfPrint print = print(content, medium);
            if (print.pages() <= MAX_PAGES) {
                return print.bytes();
            }
        }
        return print(content, Medium.BARE_PAPER).bytes();
    }

    private static PdfPrint print(ReportContent content, Medium medium) {
        return PdfPrint.of(HtmlReport.print(content, medium), content.date(), "use the HTML report and print it");
    }
}
