package lungwort.report;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import lungwort.BadInput;

/** The formats of a report. */
public enum ReportFormat {
    /** One self-contained page with pictures and sound. */
    HTML("html", "text/html; charset=utf-8"),
    /** A print of one or two pages. */
    PDF("pdf", "application/pdf"),
    /** A FHIR R4 bundle. */
    FHIR("json", "application/fhir+json"),
    /** A table of all measures, one a row. */
    CSV("csv", "text/csv; charset=utf-8");

    private final String extension;
    private final String mediaType;

    ReportFormat(String extension, String mediaType) {
        this.extension = extension;
        this.mediaType = mediaType;
    }

    /** How its files end, without the dot. */
    public String extension() {
        return extension;
    }

    /** Its media type. */
    public String mediaType() {
        return mediaType;
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
