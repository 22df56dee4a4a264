package lungwort.feature;

/** The feature catalogue as a document for people: the text of {@code core/FEATURES.md}. */
public final class FeatureDocument {
    private FeatureDocument() {}

    /** Markdown, with a line feed at each end of line. */
    public static String text() {
        StringBuilder text = new StringBuilder("# Features\n\n");
        text.append(
                        "Generated from the catalogue in `lungwort.feature`, and checked against it by a test. Levels are relative to the recording's own median level,")
                .append(" so a device's gain cancels; everything but bursts and crackles lies below 2 kHz.\n");
        table(text, "Of a segment", FeatureCatalogue.segment());
        table(text, "Of a recording", FeatureCatalogue.recording());
        return text.toString();
    }

    private static void table(StringBuilder text, String title, FeatureCatalogue catalogue) {
        text.append(
                "\n## " + title + " (" + catalogue.size() + ")\n\n| feature | unit | formula |\n| --- | --- | --- |\n");
        for (FeatureDefinition f : catalogue.features()) {
            text.append("| " + f.name() + " | " + f.unit() + " | " + f.formula() + " |\n");
        }
    }
}
