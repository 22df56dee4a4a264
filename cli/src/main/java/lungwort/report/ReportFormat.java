package lungwort.report;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.output.OutputKind;

/** The formats of a report. */
public enum ReportFormat {
    /** One self-contained page with pictures and sound. */
    HTML("html", "text/html; charset=utf-8", "<!DOCTYPE html>"),
    /** A print of one or two pages. */
    PDF("pdf", "application/pdf", "%PDF-"),
    /** A FHIR R4 bundle. */
    FHIR("json", "application/fhir+json", "\\{\\s*\"resourceType\""),
    /** A table of all measures, one a row. */
    CSV("csv", "text/csv; charset=utf-8", "person,age_months,");

    private final String extension;
    private final String mediaType;
    private final OutputKind output;

    ReportFormat(String extension, String mediaType, String beginning) {
        this.extension = extension;
        this.mediaType = mediaType;
        this.output = new OutputKind("a report as " + extension.toUpperCase(Locale.ROOT), beginning);
    }

    /** How its files end, without the dot. */
    public String extension() {
        return extension;
    }

    /** Its media type. */
    public String mediaType() {
        return mediaType;
    }

    /** How a file of it is known. */
    public OutputKind output() {
        return output;
    }

    /**
     * The format of a name: {@code html}, {@code pdf}, {@code json} or {@code fhir}, {@code csv}.
     *
     * @throws BadInput if it is none of these
     */
    public static ReportFormat ofName(String name) {
        String lower = name.toLowerCase(Locale.ROOT);
        return Arrays.stream(values())
                .filter(f -> f.extension.equals(lower)
                        || f.name().toLowerCase(Locale.ROOT).equals(lower)
                        || f == HTML && lower.equals("htm"))
                .findFirst()
                .orElseThrow(() -> new BadInput("report: \"%s\" is not a format of a report; use one of %s."
                        .formatted(
                                name,
                                Arrays.stream(values())
                                        .map(ReportFormat::extension)
                                        .collect(Collectors.joining(", ")))));
    }

    /**
     * The format by the end of a file's name.
     *
     * @throws BadInput if it tells none
     */
    public static ReportFormat ofFile(String fileName) {
        return ofName(fileName.substring(fileName.lastIndexOf('.') + 1));
    }
}
